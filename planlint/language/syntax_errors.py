"""What is wrong with a line that the grammar can't read, said by example.

Each row is a plain message and lines that cause it. A line at fault gets the message of the example that stops the parser
before the same choice of words, at the same sort of word; a test feeds every example back, and every short line there can be.
In a message `{met}` is the part at fault, as it stands or as "a comma", and `{before}` the word before it.
"""

_UNCLOSED = "These quotes are not closed on their line"
_TITLE = 'A title in quotes belongs after plan, like plan "Plover Lane cottage"'
_FILE = 'The name of a file in quotes belongs after include, like include "circuits.plan"'
_NAMELESS = "A name is missing after '{before}': one word of lower-case letters, digits and hyphens"
_NAMELESS_AT_END = _NAMELESS.replace("'{before}'", "{met}")
_QUOTED_NAME = "A name stands without quotes: one word of lower-case letters, digits and hyphens"
_SECOND_WORD = "{met} is too much here: a name is one word, its parts joined by hyphens"
_LINE_ENDS = "The line of a statement ends here; what is known of it stands on the indented lines below"
_ONE_FILE = "One include takes in one file, and nothing follows its name"
_NO_KIND = "A line at the left margin begins with a kind of statement, like panel or circuit, not with {met}"
_NO_VALUE = "'{before}' has no value"
_NO_VALUE_AT_END = "{met} has no value"
_AFTER_COMMA = "A value is missing after the comma"
_NO_MARK = "A comma or a semicolon is missing before {met}"
_NOTHING_FOLLOWS = "A semicolon stands between two attributes; none follows this one"
_NO_NAME = "The name of an attribute belongs here, not {met}"
_BEGINS = "An indented line begins with the name of an attribute, not with {met}; a list stays on one line"

EXAMPLES: dict[str, tuple[tuple[str, tuple[str, ...]], ...]] = {
    "head": (
        (_UNCLOSED, ('"a', 'plan "a', 'plan "a" "b', 'include "a', 'include "a" "b', 'panel "a', 'panel a "b')),
        (_TITLE, ("plan", "plan a", "plan ,", "plan ;")),
        (_FILE, ("include", "include a", "include ,", "include ;")),
        (_NAMELESS, ("panel ,", "panel ;")),
        (_NAMELESS_AT_END, ("panel",)),
        (_QUOTED_NAME, ('panel "a"',)),
        (_SECOND_WORD, ("panel a b",)),
        (
            _LINE_ENDS,
            (
                "panel a, b",
                "panel a; b c",
                'panel a "b"',
                'plan "a" b',
                'plan "a" "b"',
                'plan "a", b',
                'plan "a"; b c',
            ),
        ),
        (_ONE_FILE, ('include "a" b', 'include "a" "b"', 'include "a", "b"', 'include "a"; b c')),
        (_NO_KIND, ('"a" b', ", a", "; a")),
    ),
    "attributes": (
        (_UNCLOSED, ('"a', 'a "b', 'a b "c', 'a b, "c', 'a b; "c')),
        (_NO_VALUE, ("cover ;", "cover ,")),
        (_NO_VALUE_AT_END, ("cover",)),
        (_AFTER_COMMA, ("cover a,", "cover a, ,", "cover a, ;")),
        (_NO_MARK, ('cover "a" b', 'cover "a" "b"', 'cover a "b"')),
        (_NOTHING_FOLLOWS, ("cover a;",)),
        (_NO_NAME, ('cover a; "b"', "cover a; ;", "cover a; ,")),
        (_BEGINS, ('"a" b', ", a", "; a")),
    ),
}
