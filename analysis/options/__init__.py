"""What the subcommands' options take: values, and groups of options that belong together."""
