"""A day's shots: what each file holds to audit, opened in this Blender or in workers."""
