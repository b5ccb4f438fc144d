"""What every output says of the rule book that a plan was held against."""

from planlint.report import ProfileHead


def book_words(profile: ProfileHead) -> str:
    """Its title, the edition it rests on, and how far it leaves that.

    >>> book_words(report.profile)
    'Tern County (2020 model code, 4 local changes)'
    """
    if not profile.changes:
        return profile.title if str(profile.edition) in profile.title else f"{profile.title} ({profile.edition} model code)"
    word = "change" if profile.preview else "local change"
    return f"{profile.title} ({profile.edition} model code, {profile.changes} {word}{'s' if profile.changes != 1 else ''})"
