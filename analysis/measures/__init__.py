"""One quantity of a jump each: its flight, push, landing, travel, arc, feet and ground."""
