"""Rigid contact of the ball with wall, bunker lip and tree by pymunk, and with a hole that they overlap."""

from physics.scenery.contact import ContactResult, contact
from physics.scenery.regions import regions, scenery_boxes
from physics.scenery.solid import Solid

__all__ = ["ContactResult", "Solid", "contact", "regions", "scenery_boxes"]
