from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from game.draw.camera import Rect
from game.ui import layout

BOX = Rect(10.0, 20.0, 400.0, 300.0)
sizes = st.lists(st.floats(1.0, 250.0), min_size=1, max_size=12)
gaps = st.floats(0.0, 30.0)


def apart(boxes: tuple[Rect, ...]) -> bool:
    return not any(a.inset(1e-6).overlaps(b.inset(1e-6)) for a, b in combinations(boxes, 2))


@given(sizes, gaps)
def test_no_function_lets_boxes_overlap(sizes, gap):
    made = (
        layout.column(BOX, sizes, gap),
        layout.in_row(BOX, sizes, gap),
        layout.split(BOX, sizes, gap),
        layout.split(BOX, sizes, gap, down=True),
        layout.grid(BOX, 3, len(sizes), 24.0, gap),
        layout.flow(BOX, sizes, 24.0, gap),
    )
    for boxes in made:
        assert len(boxes) == len(sizes)
        assert apart(boxes)


@given(sizes, st.floats(0.0, 20.0))
def test_split_fills_the_box_and_keeps_the_shares(sizes, gap):
    boxes = layout.split(BOX, sizes, gap)
    assert boxes[0].x == pytest.approx(BOX.x)
    assert boxes[-1].right == pytest.approx(BOX.right)
    assert all(b.w / boxes[0].w == pytest.approx(s / sizes[0]) for b, s in zip(boxes, sizes, strict=True))


@given(st.lists(st.floats(1.0, 900.0), min_size=1, max_size=12), gaps)
def test_flow_stays_inside_the_width(widths, gap):
    assert all(BOX.x <= b.x and b.right <= BOX.right + 1.0 for b in layout.flow(BOX, widths, 24.0, gap))


def test_take_leaves_the_middle():
    head, middle, foot = layout.take(BOX, top=40.0, bottom=30.0, gap=10.0)
    assert (head.h, foot.h, middle.y, middle.bottom) == (40.0, 30.0, head.bottom + 10.0, foot.y - 10.0)
