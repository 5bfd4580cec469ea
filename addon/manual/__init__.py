"""The manual: a page a task as Markdown beside this file, its pictures, and what shows them in a browser."""
