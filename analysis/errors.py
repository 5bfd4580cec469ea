"""Every refusal of Leapwright: one sentence that says what is wrong, where, and what would settle it.

LeapwrightError
├── TrackError      the numbers of a track cannot be used (shape, order, not finite, too few)
├── SourceError     a file, or a thing in a scene, cannot be read into a track
├── SettingsError   a world, a limit or a mark by hand makes no sense
├── PlanError       a goal that no jump can meet
└── RetimeError     keys that cannot be moved safely

Anything else that is raised is a bug, and shows its traceback.
"""


class LeapwrightError(Exception):
    """Base of all refusals; `str()` of it is a sentence for the user, without a final period."""


class TrackError(LeapwrightError):
    """The numbers of a track cannot be used."""


class SourceError(LeapwrightError):
    """A file, or a thing in a scene, cannot be read into a track."""


class SettingsError(LeapwrightError):
    """A world, a limit or a mark by hand makes no sense."""


class PlanError(LeapwrightError):
    """A goal that no jump can meet: a sentence, or one that is filled in with values, which then are kept."""

    def __init__(self, template: str, /, **values: object) -> None:
        super().__init__(template.format(**values) if values else template)
        self.template = template if values else template.replace("{", "{{").replace("}", "}}")
        self.values = values


class RetimeError(LeapwrightError):
    """Keys that cannot be moved safely."""
