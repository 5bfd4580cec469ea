"""From an audit and what is to be kept to new times of its keys, and what they will be told of."""
