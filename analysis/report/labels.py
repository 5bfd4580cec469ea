"""What shots, tracks and figures are called in a report: short, printable, told apart."""

from dataclasses import dataclass

UNKNOWN = "–"
TRACK_OF = " · "


def printable(text: str) -> str:
    r"""Replace what a terminal or a page would act on, or cannot show, by a question mark; a fixed space by a space.

    >>> printable("0.55\N{NO-BREAK SPACE}m")
    '0.55 m'
    """
    plain = text.replace("\N{NO-BREAK SPACE}", " ")
    return plain if plain.isprintable() else "".join(letter if letter.isprintable() else "?" for letter in plain)


def cut(text: str, width: int) -> str:
    """Shorten a text to width letters, … for its middle: what tells names apart is often their ends.

    >>> cut("tq120_moss_rides", 12)
    'tq120_…rides'
    """
    if len(text) <= width:
        return text
    end = max(width - 1, 1) // 2
    return text[: max(width - 1, 0) - end] + "…" + text[len(text) - end :]


@dataclass(frozen=True, slots=True)
class ShotLabel:
    """What a shot is called; with its track where it holds several, else ""."""

    shot: str
    track: str = ""

    def __str__(self) -> str:
        return f"{self.shot}{TRACK_OF}{self.track}" if self.track else self.shot

    def cut(self, width: int) -> str:
        """Shorten it so that both names are still told.

        >>> ShotLabel("tq120_moss_rides", "Moss/root").cut(22)
        'tq120…ides · Moss/root'
        """
        if len(str(self)) <= width or not self.track:
            return cut(str(self), width)
        track = cut(self.track, max(width - len(TRACK_OF) - len(self.shot), width // 2 - 2))
        return cut(self.shot, width - len(TRACK_OF) - len(track)) + TRACK_OF + track


def frame_text(frame: float) -> str:
    """Return a frame with a tenth where it lies between two.

    >>> frame_text(12.0), frame_text(12.34)
    ('12', '12.3')
    """
    return f"{frame:.1f}".removesuffix(".0")


def short_frame(frame: float) -> str:
    """Return a frame for a narrow column: the tenth goes from frame 1000 on."""
    return frame_text(frame) if abs(frame) < 1000 else f"{frame:.0f}"


def error_text(error: float) -> str:
    """Return the error of a frame; never rounded down to nothing.

    >>> error_text(0.3), error_text(0.02), error_text(0.0)
    ('0.3', '0.02', '0.01')
    """
    return f"{error:.1f}" if error >= 0.05 else f"{max(error, 0.01):.2f}"


def figure_text(value: float | None, unit: str = "", digits: int = 2) -> str:
    """Return a figure with its unit; a dash where it is not known."""
    return UNKNOWN if value is None else f"{value:.{digits}f}{unit}"


def counted(number: int, one: str, many: str = "") -> str:
    """Return a number with its noun.

    >>> counted(1, "jump"), counted(3, "jump")
    ('1 jump', '3 jumps')
    """
    return f"{number} {one if number == 1 else many or one + 's'}"
