"""A folder laid out like `rules/`, made for one test: rules with the keys that matter to it, settings and profiles."""

from pathlib import Path

from planlint.book import Code, resolve
from planlint.faults import Faults

RULE = {
    "about": "trench",
    "must": "cover >= 18 in",
    "at": "cover",
    "severity": "correction",
    "hazard": "shock",
    "inspection": "underground",
    "clause": "{2017: 300.5(A), 2020: 300.5(A), 2023: 300.5(A)}",
    "finding": "too shallow",
    "remedy": "dig",
    "why": "a spade",
}


def rule_text(name: str, **changes: str) -> str:
    """A rule file whose keys are as they should be, but for the changes (`instead_of` is `instead-of`; "" leaves a key out)."""
    keys = {"rule": name, **RULE, **{key.replace("_", "-"): value for key, value in changes.items()}}
    return "".join(f"{key}: {value}\n" for key, value in keys.items() if value)


class Folder:
    """The folder, and ways to fill it and to resolve its profiles."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self.rules = root / "rules"
        self.plan = root / "plan" / "profiles"
        for year in (2017, 2020, 2023):
            self.profile(f"model-{year}", f"title: Model {year}\nedition: {year}\nconfirm-with: the inspector\n", self.own)

    @property
    def own(self) -> Path:
        """Where the models are."""
        return self.rules / "profiles"

    def write(self, path: Path, text: str) -> Path:
        """Write a file and the folders above it."""
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return path

    def rule(self, name: str, topic: str = "topic", **changes: str) -> None:
        """One rule."""
        self.write(self.rules / topic / f"{name}.yaml", rule_text(name, **changes))

    def profile(self, name: str, text: str, folder: Path | None = None) -> None:
        """One profile, beside the plan if no folder is named. `title` is there unless the text has one."""
        title = "" if "title:" in text else f"title: {name}\n"
        self.write((folder or self.plan) / f"{name}.yaml", f"profile: {name}\n{title}{text}")

    def resolve(self, *names: str, folders: tuple[Path, ...] = ()) -> Code:
        """The code under these profiles."""
        return resolve(names, beside=self.plan, folders=folders, own=self.rules)

    def faults(self, *names: str, folders: tuple[Path, ...] = ()) -> list[str]:
        """What is wrong with it, each with the name of its file and its line."""
        try:
            self.resolve(*names, folders=folders)
        except Faults as found:
            return [f"{fault.span.file.rpartition('/')[2]} {fault.span.line}: {fault.message}" for fault in found.faults]
        return []
