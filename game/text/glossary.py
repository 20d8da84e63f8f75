"""The words of the trade, each in one plain sentence of at most 12 short words."""

__all__ = ["GLOSSARY", "terms_in"]

GLOSSARY: dict[str, str] = {
    "address": "How you stand and hold the club before you swing.",
    "apex": "The highest point of the flight of the ball.",
    "as set": "The ball did what the set-up meant it to do.",
    "attack": "Is the club going up or down as it meets the ball?",
    "backspin": "The ball turns back toward you as it flies.",
    "ball position": "Where the ball lies between your feet.",
    "ball speed": "How fast the ball leaves the club.",
    "bounce": "How far the sole hangs below the front edge.",
    "brush": "The sole skims the grass and hardly marks it.",
    "carry": "How far the ball flies before it lands.",
    "chip": "A short, low shot that runs more than it flies.",
    "clean": "The face meets the ball before the turf.",
    "coach's set-up": "How the coach would stand and swing here.",
    "cut": "The path of the club through the sand.",
    "dig": "The front edge cuts into the turf and slows down.",
    "dip": "How much you sink to reach the ball again.",
    "divot": "The strip of turf the club cuts out.",
    "face": "The front of the club that meets the ball.",
    "face open": "How far you turn the club to the sky.",
    "fat": "The ground before the ball takes most of the shot.",
    "flagstick": "The pole that stands in the hole.",
    "flat spot": "The stretch where the front edge stays near its lowest.",
    "follow-through": "What arms and club do after the strike.",
    "fringe": "The short grass around the green.",
    "grind": "How the heel of the club is cut away.",
    "habit": "What you always add to your swing, meant or not.",
    "handle": "The end of the club that you hold.",
    "handle return": "Does the grip come back to where you set it?",
    "head speed": "How fast the club moves before it meets anything.",
    "hit twice": "The club meets the ball again after the strike.",
    "hot": "The ball comes off faster than it should.",
    "impact": "The moment the club meets the ball.",
    "intended depth": "How deep you mean the sole to brush.",
    "landing angle": "How steep the ball comes down.",
    "launch": "How the ball leaves: its angle up from the ground.",
    "lead foot": "The foot nearer to the target.",
    "leading edge": "The front edge of the sole, where the face begins.",
    "lean": "How far the handle tips toward the target.",
    "lean added by impact": "How much further forward you bring the handle back.",
    "leave": "How far from the hole the ball stops.",
    "lie": "What the ball sits on, and how deep.",
    "lip": "The edge of turf that hangs over the sand.",
    "loft": "How far the face tips back toward the sky.",
    "low point": "Where the swing comes lowest to the ground.",
    "match": "Set-up and swing ask for the same lean.",
    "missed": "The club does not meet the ball at all.",
    "multiple exposure": "One picture of the club at equal times.",
    "pressed": "How far the mat gave way under the sole.",
    "release": "The club swings past the hands through the strike.",
    "roll": "The ball turns over the ground without sliding.",
    "rough": "The long grass beside the short grass.",
    "scrape": "The edge rubs over the ground where the sole should.",
    "set-up": "Everything you choose before you swing.",
    "shaft lean": "How far the handle tips toward the target at address.",
    "skid": "The club slides over turf, or the ball over grass.",
    "sole": "The underside of the club head.",
    "solid": "The ball goes as far as this swing should send it.",
    "splash": "The sand carries the ball out, not the face.",
    "spread": "How much your strokes differ from each other.",
    "stance width": "The gap between your heels.",
    "swing length": "How far the arms swing back.",
    "thin": "The edge meets the ball low, so it flies low and fast.",
    "topped": "The edge meets the ball above its middle.",
    "turf": "The grass with its roots and the soil under it.",
    "weak": "The ball comes off slower than it should.",
    "weight on lead foot": "How much of you stands on the front leg.",
}


def terms_in(label: str) -> tuple[str, ...]:
    """The terms that begin a word of a label, the longest first: `leans` holds lean.

    >>> terms_in("Lean added by impact")
    ('lean added by impact', 'impact', 'lean')
    """
    text = f" {label.lower()}"
    return tuple(sorted((term for term in GLOSSARY if f" {term}" in text), key=len, reverse=True))
