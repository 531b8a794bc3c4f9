"""Safe names of files, whatever a roster holds."""

import re
import unicodedata

LONGEST = 60
FALLBACK = "book"
SUFFIX = re.compile(r"\.xlsx\s*$", re.IGNORECASE)
# Letters that Unicode does not take apart.
LETTERS = str.maketrans({"œ": "oe", "æ": "ae", "ß": "ss", "ø": "o", "ł": "l", "đ": "d"})
# Names that one system keeps for devices, whatever follows the point.
DEVICE = re.compile(r"(con|prn|aux|nul|clock|conin|conout|(com|lpt)[0-9])")


def make_slug(text: str) -> str:
    """Return a text as a file's name without suffix: small letters, digits and hyphens."""
    plain = unicodedata.normalize("NFKD", SUFFIX.sub("", text).casefold().translate(LETTERS))
    bare = "".join(c for c in plain if not unicodedata.combining(c))
    slug = re.sub(r"[^a-z0-9]+", "-", bare).strip("-")[:LONGEST].strip("-")
    return f"{slug}-{FALLBACK}" if DEVICE.fullmatch(slug) else slug or FALLBACK


class Names:
    """The names given so far; one that comes again gets a number."""

    def __init__(self) -> None:
        """Begin with no name."""
        self.given: set[str] = set()
        self.counts: dict[str, int] = {}

    def claim(self, slug: str) -> str:
        """Return the slug, with -2, -3 and so on where it is taken."""
        name = slug
        while name in self.given:
            self.counts[slug] = self.counts.get(slug, 1) + 1
            ending = f"-{self.counts[slug]}"
            name = slug[: LONGEST - len(ending)].rstrip("-") + ending
        self.given.add(name)
        return name
