"""The words of the trade, each in one plain sentence of at most 12 short words."""

__all__ = ["GLOSSARY"]

GLOSSARY: dict[str, str] = {
    "address": "How you stand and hold the club before you swing.",
    "arc": "How far back and through the club swings.",
    "attack": "Is the club going up or down as it meets the ball?",
    "bounce": "How far the sole hangs below the front edge.",
    "brush": "The sole skims the grass and hardly marks it.",
    "carry": "How far the ball flies before it lands.",
    "chip": "A short, low shot that runs more than it flies.",
    "clean": "The face meets the ball before the turf.",
    "dig": "The front edge cuts into the turf and slows down.",
    "divot": "The strip of turf the club cuts out.",
    "fat": "The club meets the turf too soon, before the ball.",
    "flat spot": "The stretch where the front edge stays near its lowest.",
    "follow-through": "What arms and club do after the strike.",
    "leading edge": "The front edge of the sole, where the face begins.",
    "lean": "How far the handle tips toward the target.",
    "leave": "How far from the hole the ball stops.",
    "lie": "What the ball sits on, and how deep.",
    "loft": "How far the face tips back toward the sky.",
    "low point": "Where the swing comes lowest to the ground.",
    "release": "The club swings past the hands through the strike.",
    "roll": "The ball turns over the ground without sliding.",
    "skid": "The sole slides over the turf, or the ball over grass.",
    "sole": "The underside of the club head.",
    "spread": "How much your strokes differ from each other.",
    "thin": "The edge meets the ball low, so it flies low and fast.",
    "topped": "The edge meets the ball above its middle.",
}
