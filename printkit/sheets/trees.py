"""A bin as a tree of straight cuts: parts side by side along one direction, each parted across it.

Lengths are whole numbers of any unit. A node is a rectangle, `length` along its own direction and
`breadth` across it. Its kids lie side by side along it and fill its breadth; what is left of its length
is its `slack`, one free rectangle. A kid is a node of the other direction, or a leaf that holds an item.
The kids of a node may change places, hence one slack a node says where anything can still go.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass


class Node:
    """A part of a bin, or (`item` not negative) an item that fills its place exactly."""

    __slots__ = ("breadth", "down", "item", "kids", "length", "parent", "slack", "turned")

    def __init__(self, down: bool, length: int, breadth: int, item: int = -1, turned: bool = False):
        self.down, self.length, self.breadth = down, length, breadth
        self.slack = 0 if item >= 0 else length
        self.item, self.turned = item, turned
        self.kids: list[Node] = []
        self.parent: Node | None = None

    def add(self, kid: "Node") -> None:
        """Takes a kid into the slack."""
        kid.parent = self
        self.kids.append(kid)
        self.slack -= kid.breadth


@dataclass(frozen=True, slots=True)
class Place:
    """Where an item lies in its bin, from the top left, and whether it was turned."""

    item: int
    left: int
    top: int
    width: int
    height: int
    turned: bool


class Bin:
    """A tree that can grow and lose items; `free` is the area that no item covers."""

    __slots__ = ("free", "root", "spaces")

    def __init__(self, width: int, height: int):
        self.root = Node(True, height, width)
        self.free = width * height
        self.spaces: list[Node] = [self.root]

    def copy(self) -> "Bin":
        """A bin of its own with the same items."""
        twin = Bin.__new__(Bin)
        twin.free = self.free
        twin.spaces = []
        twin.root = _copied(self.root, twin.spaces)
        return twin

    def put(self, node: Node, item: int, along: int, across: int, turned: bool, whole: bool) -> None:
        """Lays an item into a node's slack, `along` its direction.

        With `whole` the slack is first cut at the item's length across its whole breadth; else
        first along it, at the item's breadth, and what lies behind the item stays as broad as that.
        """
        self.free -= along * across
        spaces = self.spaces
        if across == node.breadth:
            node.add(Node(not node.down, across, along, item, turned))
        elif whole or along == node.slack:
            kid = Node(not node.down, node.breadth, along)
            kid.add(Node(node.down, along, across, item, turned))
            node.add(kid)
            spaces.append(kid)
        else:
            kid = Node(not node.down, node.breadth, node.slack)
            row = Node(node.down, node.slack, across)
            row.add(Node(not node.down, across, along, item, turned))
            kid.add(row)
            node.add(kid)
            spaces += (kid, row)
        if not node.slack:
            spaces.remove(node)

    def leaves(self) -> list[Node]:
        """The leaves, from first to last."""
        return list(_leaves(self.root))

    def take(self, leaf: Node, tight: bool) -> None:
        """Takes an item out; parts that become empty, or (`tight`) broader than needed, give way."""
        node = leaf.parent
        assert node is not None
        self.free += leaf.breadth * leaf.length
        node.kids.remove(leaf)
        node.slack += leaf.breadth
        while not node.kids and node.parent is not None:
            parent = node.parent
            parent.kids.remove(node)
            parent.slack += node.breadth
            node = parent
        while tight and node.parent is not None and node.parent.parent is not None:
            node = node.parent
            spare = min(kid.slack for kid in node.kids)
            if not spare:
                break
            for kid in node.kids:
                kid.length -= spare
                kid.slack -= spare
            node.breadth -= spare
            node.parent.slack += spare

    def look(self) -> None:
        """Finds the free rectangles anew, after items were taken out."""
        self.spaces = []
        stack = [self.root]
        while stack:
            node = stack.pop()
            if node.slack:
                self.spaces.append(node)
            stack += [kid for kid in node.kids if kid.item < 0]

    def places(self) -> tuple[Place, ...]:
        """Where every item lies."""
        found: list[Place] = []
        _place(self.root, 0, 0, found.append)
        return tuple(found)


def _copied(node: Node, spaces: list[Node]) -> Node:
    twin = Node.__new__(Node)
    twin.down, twin.length, twin.breadth, twin.slack = node.down, node.length, node.breadth, node.slack
    twin.item, twin.turned, twin.parent = node.item, node.turned, None
    if node.item >= 0:
        twin.kids = []
        return twin
    if node.slack:
        spaces.append(twin)
    kids = twin.kids = [_copied(kid, spaces) for kid in node.kids]
    for kid in kids:
        kid.parent = twin
    return twin


def _leaves(node: Node) -> Iterator[Node]:
    for kid in node.kids:
        if kid.item >= 0:
            yield kid
        else:
            yield from _leaves(kid)


def _place(node: Node, left: int, top: int, tell: Callable[[Place], None]) -> None:
    for kid in node.kids:
        if kid.item >= 0:
            width, height = (kid.length, kid.breadth) if node.down else (kid.breadth, kid.length)
            tell(Place(kid.item, left, top, width, height, kid.turned))
        else:
            _place(kid, left, top, tell)
        if node.down:
            top += kid.breadth
        else:
            left += kid.breadth
