"""Whether an answer says that it is not known, in the words of people."""

from __future__ import annotations

import re

from dwellcalc.home.names import plain

DO_NOT_KNOW = (
    *("don't know", "dont know", "do not know", "not known", "not sure", "no idea", "unknown", "cannot be read", "dunno"),
    *(
        "idk",
        "maybe",
        "perhaps",
        "possibly",
        "could be",
        "no clue",
        "can't tell",
        "cannot tell",
        "undecided",
        "tbd",
        "to be chosen",
        "to be decided",
        "to be sized",
        "not sized yet",
        "don't care",
        "no preference",
        "doesn't matter",
        "does not matter",
        "up to the electrician",
        "ask the electrician",
        "the electrician will say",
    ),
    *(f"not {word}{yet}" for word in ("chosen", "decided", "bought", "selected") for yet in ("", " yet")),
)
NO_LABEL = re.compile(
    r"(?:there is |there's )?(?:no|(?:can'?t|cannot|could ?n'?t|could not|didn'?t|did not) (?:find|read|see) (?:the|a|any)) "
    r"(?:label|name ?plate|rating plate|sticker|number|print|marking|writing)s?(?: (?:that )?(?:i|we) (?:can|could|dare|dared|want|may|am|are|would|did) .*| (?:on it|found|there|anywhere|left|to (?:see|read|be seen|find)))?"
)
NOTHING_AT_HAND = re.compile(
    r"(?:(?:i|we)(?:'ve| have| have got|'ve got)|there is|there's) (?:nothing|no (?:papers?|information|figures?|documents?|manual|details?|bills?))"
    r"(?: (?:here|at hand|in writing|to go by|to look at|with me|of it|about it|on it|for it|yet))*"
)  # who has nothing at hand has not said that there is none
NOT_SEEN_YET = re.compile(
    r"(?:i'?d|i would|we would|we'd|will|i'll) (?:have to|need to|must) (?:look|check|ask|measure|see).*"
    r"|(?:i |we )?(?:haven'?t|have not|not|never|didn'?t|did not) (?:yet )?(?:look|check|pick|chosen|choose|decid|bought|buy|ask|measur|select|seen)\w*.*"
    r"|never heard of .*|(?:i |we )?(?:would not|wouldn'?t) know(?: that| it)?|(?:i |we )?(?:have |'ve )?never (?:looked|checked|noticed|asked)(?: .*)?"
    r"|(?:i |we )?(?:can'?t|cannot|could ?n'?t|could not) (?:see|say|tell|read|find|get at|get to|get into|reach|open)(?: (?:any|it|one|that|them|you|for sure|there|anything|much))*"
    r"|(?:i |we )?(?:don'?t|do not) see (?:one|any|it|that)(?: .*)?|whatever(?: .*)?|nothing(?: is)? (?:printed|written|marked|legible|readable|visible).*|no way (?:to|of) .*"
)
HALF_READ = re.compile(r"(?<!\w)\d{0,2}[_*?]\d{0,2}\s*A\b")  # of a number, such as 1_5 A
OF_WHAT = r" (?:what|which|where|how|who|if|whether|about|on|of|for|yet|really|exactly|sorry|at all)(?: .*)?"
ITSELF = ("i ", "i'm ", "im ", "am ", "we ", "have ", "honestly ", "sorry ")  # how a sentence may begin


def not_known(text: str) -> bool:
    """Whether it was said that it is not known."""
    said = plain(text.replace("\u2019", "'")).rstrip(".!")
    if HALF_READ.search(text) is not None:
        return True
    if NOTHING_AT_HAND.fullmatch(said) is not None:
        return True
    for begins in ITSELF:
        said = said.removeprefix(begins)
    if said in DO_NOT_KNOW or NO_LABEL.fullmatch(said) is not None:
        return True
    more = NOT_SEEN_YET.fullmatch(said) or any(re.fullmatch(re.escape(each) + OF_WHAT, said) for each in DO_NOT_KNOW)
    return bool(more) and not any(map(str.isdigit, said)) and not re.search("[,;]", said)
