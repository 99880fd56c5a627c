"""What the gates share: the sources of a tree, their text without comments, and a fault's one line."""
import pathlib
import re
import sys

_TOKEN = re.compile(
    r"""(?P<comment>/\*.*?\*/|//[^\n]*)|(?P<string>"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*')""", re.S)


def files(root, *suffixes, under=("include", "src")):
    """The sources below `under`, in order."""
    found = []
    for folder in under:
        found += [p for p in sorted((root / folder).rglob("*")) if p.suffix in suffixes]
    return found


def _blank(text):
    return re.sub(r"[^\n]", " ", text)


def without_comments(text):
    """Comments become blanks, so that lines and columns stay."""
    return _TOKEN.sub(lambda m: _blank(m.group()) if m.group("comment") else m.group(), text)


def code_only(text):
    """Comments and what is between quotes become blanks."""
    return _TOKEN.sub(lambda m: _blank(m.group()) if m.group("comment") else '"' + _blank(m.group()[1:-1]) + '"', text)


def strings(text):
    """(line, string literal) of each, comments apart."""
    for m in _TOKEN.finditer(text):
        if m.group("string") and m.group().startswith('"'):
            yield text.count("\n", 0, m.start()) + 1, m.group()


def exceptions(gate):
    """{subject: reason} from the file `exceptions` beside the gates."""
    found = {}
    for line in (pathlib.Path(__file__).parent / "exceptions").read_text().splitlines():
        if line and not line.startswith("#"):
            name, subject, reason = line.split(None, 2)
            if name == gate:
                found[subject] = reason
    return found


class Faults:
    """Collects faults; `end` says them and leaves with the status."""

    def __init__(self, root):
        self.root = root
        self.count = 0

    def add(self, path, line, what):
        print(f"{path.relative_to(self.root)}:{line}: {what}")
        self.count += 1

    def warn(self, path, line, what):
        print(f"warning: {path.relative_to(self.root)}:{line}: {what}")

    def end(self, looked_at):
        if looked_at == 0:
            print("nothing was looked at")
        sys.exit(1 if self.count or looked_at == 0 else 0)


def root_of_arguments():
    return pathlib.Path(sys.argv[1]).resolve()
