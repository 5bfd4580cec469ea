"""The show file, leapwright.toml: what a show's shots are read by and judged against, found upward from them."""
