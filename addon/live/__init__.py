"""Whether what is shown is of the scene as it is, and the audit that follows the keys by itself."""
