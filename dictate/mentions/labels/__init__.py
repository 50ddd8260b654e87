"""What was measured, as words: labels, components, electrical points, legs and windings in a narration.

    find_labels(narration)      labels of quantities.toml ("head pressure", "superheat", "box")
    find_components(narration)  components of components.toml, with which of several
    find_points(narration)      points of points.toml, legs and winding pairs

Each returns a list in the order of the words. A component's generic word ("fan", "cap") is resolved to the
last more exact one of its family that was named.
"""

from dictate.mentions.labels.named_components import Component, ComponentAt, components, find_components
from dictate.mentions.labels.named_labels import (
    Label,
    LabelAt,
    find_labels,
    labels,
    labels_by_end,
    labels_by_start,
)
from dictate.mentions.labels.named_points import find_points
from dictate.mentions.labels.point_at import PointAt

__all__ = [
    "Component",
    "ComponentAt",
    "Label",
    "LabelAt",
    "PointAt",
    "components",
    "find_components",
    "find_labels",
    "find_points",
    "labels",
    "labels_by_end",
    "labels_by_start",
]
