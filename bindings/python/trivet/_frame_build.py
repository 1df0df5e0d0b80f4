"""Building a frame: what is added, set and taken away. Numbers in SI units, or text with a unit."""
import math
from functools import lru_cache
from typing import Any, Dict, Mapping, Optional, Sequence, Tuple, Union

from . import _calls as calls
from . import errors
from ._c import ENUMS, Quantity, code, number, quantities, struct, vector
from ._frame_core import (SIDES, FrameCore, Name, Place, bits, directions, six_of)
from .records import Material

NAME_MOST = 128  # bytes of a name with the closing zero


@lru_cache(maxsize=64)
def _named_material(name: str) -> Any:
    """A built-in material; nobody writes into it, so that it is made once."""
    return struct("material", dict(vars(calls.material_find(name))))


def made_material(material: Union[str, Material, Mapping[str, Any]]) -> Any:
    """A material by its name, as a record, or by its values."""
    if isinstance(material, str):
        return _named_material(material)
    if isinstance(material, Material):
        return struct("material", dict(vars(material)))
    if isinstance(material, Mapping):
        return struct("material", dict(material))
    raise errors.WrongArgument(f"is {type(material).__name__}", thing="material",
                               remedy='give a name such as "E235", or its values')


def made_profile(shape: str, sizes: Dict[str, Any]) -> Any:
    """A profile by its shape and sizes."""
    if sizes.get("corner_radius") is not None and sizes.get("corner") is None:
        sizes = {**sizes, "corner": "radius"}
    return struct("profile", {"shape": shape, **sizes})


def _vector(values: Optional[Place], dimension: str, name: str) -> Any:
    return None if values is None else vector(values, dimension, name)


def _flat(axes: Any) -> Any:
    """Nine numbers from three rows."""
    try:
        return [value for row in axes for value in row] if len(axes) == 3 else list(axes)
    except TypeError:
        raise errors.WrongArgument("are not rows of numbers", thing="axes",
                                   remedy="give three rows of three") from None


class Building(FrameCore):
    """Each method is one change; if it is refused, the frame is as it was."""

    def add_joint(self, name: str, x: Quantity, y: Quantity, z: Quantity) -> int:
        """Adds a joint at x (forward), y (left), z (up), in m.

        >>> import trivet
        >>> frame = trivet.Frame()
        >>> frame.add_joint("RL", -0.24, "6 1/4 in", 0)
        0
        >>> frame.position("RL").tolist()
        [-0.24, 0.15875, 0.0]
        """
        place: Any = (x, y, z)
        if type(x) is not float or type(y) is not float or type(z) is not float:
            place = vector(place, "length", "joint")
        with self._use().lock:
            made = calls.frame_add_joint(self._change(), name, place)
            return self._remember("joint", name, made)

    def clear(self) -> None:
        """Empties the frame and keeps its memory for what is put in next. Name and units stay.

        >>> import trivet
        >>> frame = trivet.Frame("rack")
        >>> _ = frame.add_joint("A", 0, 0, 0)
        >>> frame.clear()
        >>> len(frame.joints), frame.name
        (0, 'rack')
        """
        with self._use().lock:
            calls.frame_clear(self._change())
            self._numbers = {}

    def set_position(self, joint: Name, x: Quantity, y: Quantity, z: Quantity) -> None:
        """Moves a joint to another place, in m."""
        place = vector((x, y, z), "length", "joint")
        with self._use().lock:
            calls.frame_set_position(self._change(), self._number("joint", joint), place)

    def set_droop_limit(self, joint: Name, limit: Optional[Quantity]) -> None:
        """Limits how far a joint may come down, in m; None takes the limit away."""
        most = float("nan") if limit is None else number(limit, "length", "limit")
        with self._use().lock:
            calls.frame_set_droop_limit(self._change(), self._number("joint", joint), most)

    def add_stock(self, name: str, shape: str, *,
                  material: Union[str, Material, Mapping[str, Any]] = "E235",
                  **sizes: Any) -> int:
        """Adds stock: a shape with its sizes in m, of a material.

        Sizes are the members of trivet.records.Profile: width, height, wall, diameter, corner
        ("sharp"), corner_radius, flange, ..., given_area and so on for shape "given values".

        >>> import trivet
        >>> frame = trivet.Frame()
        >>> frame.add_stock("rail", "square tube", width="20 mm", wall="14 ga BWG")
        0
        >>> round(frame.profile("rail").wall * 1e3, 3)
        2.108
        """
        profile, made = made_profile(shape, sizes), made_material(material)
        with self._use().lock:
            return self._remember("stock", name,
                                  calls.frame_add_stock(self._change(), name, profile, made))

    def set_stock(self, stock: Name, shape: str, *,
                  material: Union[str, Material, Mapping[str, Any]] = "E235",
                  **sizes: Any) -> None:
        """Changes stock in place, given as in add_stock."""
        profile, made = made_profile(shape, sizes), made_material(material)
        with self._use().lock:
            calls.frame_set_stock(self._change(), self._number("stock", stock), profile, made)

    def add_tube(self, name: str, through: Sequence[Name], stock: Name, *,
                 roll: Quantity = 0.0) -> int:
        """Adds a tube that runs straight through joints; roll turns its section, in rad."""
        turn = number(roll, "angle", "roll")
        with self._use().lock:
            joints = self._several("joint", through)
            made = calls.frame_add_tube(self._change(), name, joints,
                                        self._number("stock", stock), turn)
            return self._remember("tube", name, made)

    def set_free_end(self, tube: Name, joint: Name, free: Any = "pinned") -> None:
        """Frees an end of a tube, in its own axes: "pinned", ["x", "ry"]; [] makes it rigid."""
        freed = directions(free, "free")
        with self._use().lock:
            calls.frame_set_free_end(self._change(), self._number("tube", tube),
                                     self._number("joint", joint), freed)

    def set_offset(self, tube: Name, joint: Name, offset: Place) -> None:
        """A rigid offset of three lengths in m, world axes, from a joint to the tube's own line."""
        by = vector(offset, "length", "offset")
        with self._use().lock:
            calls.frame_set_offset(self._change(), self._number("tube", tube),
                                   self._number("joint", joint), by)

    def add_insert(self, tube: Name, joint: Name, length: Quantity, stock: Name, *,
                   bond: str = "side by side") -> None:
        """Slides an insert into a tube at a joint; bond is "side by side" or "together"."""
        long, how = number(length, "length", "length"), code("bond", bond, "bond")
        with self._use().lock:
            calls.frame_add_insert(self._change(), self._number("tube", tube),
                                   self._number("joint", joint), long,
                                   self._number("stock", stock), how)

    def _mount(self, hold: Any, spring: Any, axes: Any, limits: Dict[str, Any]) -> Any:
        made = struct("mount", limits)
        made.held = directions(hold, "hold")
        if spring is not None:
            made.spring = six_of(spring, ("line load", "turn spring"), "spring")
        if axes is not None:
            made.axes = quantities(_flat(axes), "number", 9, "axes")
        return made

    def add_mount(self, joint: Name, hold: Any = "all", *, spring: Any = None, axes: Any = None,
                  **limits: Any) -> int:
        """Adds a mount at a joint.

        Args:
            joint: where the frame is held
            hold: "all", "position", or directions such as ["x", "z", "ry"]
            spring: give in N/m and N m/rad by direction, such as {"ry": "900 N*m/rad"}
            axes: three rows, the mount's x, y and z in world axes
            limits: limit_pull, limit_push, limit_shear in N, limit_moment in N m
        """
        made = self._mount(hold, spring, axes, limits)
        with self._use().lock:
            made.joint = self._number("joint", joint)
            index = calls.frame_add_mount(self._change(), made)
            if isinstance(joint, str):
                return self._remember("mount", joint, index)
            self._forget("mount")
            return index

    def set_mount(self, mount: Name, hold: Any = "all", *, spring: Any = None, axes: Any = None,
                  **limits: Any) -> None:
        """Changes what a mount holds, given as in add_mount; its joint stays."""
        made = self._mount(hold, spring, axes, limits)
        with self._use().lock:
            index = self._number("mount", mount)
            made.joint = calls.frame_mount(self._use(), index).joint
            calls.frame_set_mount(self._change(), index, made)

    def remove_mount(self, mount: Name) -> None:
        """Takes a mount away, with its bolts and moves."""
        with self._use().lock:
            calls.frame_remove_mount(self._change(), self._number("mount", mount))
            self._forget("mount")

    def add_cargo(self, name: str, centre: Place, on: Union[str, Sequence[Name]], *,
                  mass: Optional[Quantity] = None, items: Optional[Mapping[str, Quantity]] = None,
                  grip: str = "stiff") -> int:
        """Adds cargo: its mass in kg, or what is in it, at a centre of gravity in m.

        Args:
            on: joints that it rests on, or the name of a deck
            grip: "stiff" (a hard case, bolted down) or "soft" (strapped: stiffens nothing)
        """
        if (mass is None) == (items is None):
            raise errors.Incomplete("wants mass or items", thing=f"cargo {name}",
                                    remedy="give one of the two")
        weights = {name: mass} if items is None else dict(items)
        masses = {item: number(value or 0.0, "mass", f"cargo {name}: {item}")
                  for item, value in weights.items()}
        middle, how = vector(centre, "length", "centre"), code("grip", grip, "grip")
        with self._use().lock:
            if isinstance(on, str) and on in self._names("deck"):
                given = calls.frame_deck_joints(self._use(), self._number("deck", on))
                joints = [] if given is None else given.tolist()
            else:
                joints = self._several("joint", on)

            def work(frame: Any) -> int:
                cargo = calls.frame_add_cargo(frame, name, middle, joints, how)
                for item, kilograms in masses.items():
                    calls.frame_add_item(frame, cargo, item, kilograms)
                return cargo

            # Items that nothing can be said against need no second frame to try them on.
            plain = all(0.0 <= mass < math.inf and isinstance(item, str)
                        and 0 < len(item.encode("utf-8", "replace")) < NAME_MOST
                        for item, mass in masses.items())
            made = work(self._change()) if plain else self._all_or_nothing(work)
            return self._remember("cargo", name, made)

    def add_item(self, cargo: Name, name: str, mass: Quantity) -> None:
        """Puts one thing more into a cargo, in kg."""
        kilograms = number(mass, "mass", name)
        with self._use().lock:
            calls.frame_add_item(self._change(), self._number("cargo", cargo), name, kilograms)

    def scale_cargo(self, cargo: Name, factor: float) -> None:
        """Multiplies the mass of everything in a cargo."""
        with self._use().lock:
            calls.frame_scale_cargo(self._change(), self._number("cargo", cargo),
                                    number(factor, "number", "factor"))

    def add_case(self, name: str, gravity: Optional[Place] = None) -> int:
        """Adds a case; gravity in multiples of 9.80665 m/s^2, world axes: (0, 0, -1) is parked."""
        pull = None if gravity is None else vector(gravity, "number", "gravity")
        with self._use().lock:
            return self._remember("case", name,
                                  calls.frame_add_case(self._change(), name, pull))

    def set_cargo_factor(self, case: Name, cargo: Name, factor: float) -> None:
        """Scales a cargo in a case; 0 leaves it out."""
        with self._use().lock:
            calls.frame_set_cargo_factor(self._change(), self._number("case", case),
                                         self._number("cargo", cargo),
                                         number(factor, "number", "factor"))

    def add_force(self, case: Name, on: str, force: Optional[Place] = None, *,
                  moment: Optional[Place] = None, at: Optional[Place] = None) -> None:
        """Adds a force in N and a moment in N m on a joint or a cargo, world axes.

        at, in m, is where a force on a cargo acts; without it at the cargo's centre.
        """
        push = None if force is None else vector(force, "force", "force")
        turn = None if moment is None else vector(moment, "moment", "moment")
        place = None if at is None else vector(at, "length", "at")
        with self._use().lock:
            number_of_case = self._number("case", case)
            table = self._numbers.get("cargo")
            cargo = (self._names("cargo") if table is None else table).get(on)
            if cargo is not None:
                calls.frame_add_cargo_force(self._change(), number_of_case, cargo, push, turn,
                                            place)
            elif at is not None:
                raise errors.BadValue("cannot have a place of its own", thing=f"force on {on}",
                                      remedy="leave at out, or name a cargo")
            else:
                calls.frame_add_joint_force(self._change(), number_of_case,
                                            self._number("joint", on), push, turn)

    def add_tube_force(self, case: Name, tube: Name, at: Quantity, force: Optional[Place] = None,
                       *, moment: Optional[Place] = None, axes: str = "world axes") -> None:
        """Adds a force in N and a moment in N m at so many m along a tube.

        axes is "world axes" or "tube axes".
        """
        push, turn = _vector(force, "force", "force"), _vector(moment, "moment", "moment")
        place, which = number(at, "length", "at"), code("axes", axes, "axes")
        with self._use().lock:
            calls.frame_add_tube_force(self._change(), self._number("case", case),
                                       self._number("tube", tube), place, push, turn, which)

    def add_tube_line(self, case: Name, tube: Name, line: Place, *,
                      to_line: Optional[Place] = None, start: Quantity = 0.0,
                      end: Optional[Quantity] = None, axes: str = "world axes") -> None:
        """Adds a line load in N/m from start to end, in m along a tube; to_line is that at its end."""
        first = vector(line, "line load", "line")
        last = first if to_line is None else vector(to_line, "line load", "to_line")
        begins = number(start, "length", "start")
        ends = float("nan") if end is None else number(end, "length", "end")
        which = code("axes", axes, "axes")
        with self._use().lock:
            calls.frame_add_tube_line(self._change(), self._number("case", case),
                                      self._number("tube", tube), begins, ends, first, last, which)

    def set_mount_move(self, case: Name, mount: Name, move: Any) -> None:
        """Moves the ground under a mount: m and rad in its axes, such as {"z": "1 mm"}."""
        by = six_of(move, ("length", "angle"), "move")
        with self._use().lock:
            calls.frame_set_mount_move(self._change(), self._number("case", case),
                                       self._number("mount", mount), by)

    def set_warm(self, case: Name, warm: Quantity) -> None:
        """Warms the whole frame in a case, in K."""
        with self._use().lock:
            calls.frame_set_warm(self._change(), self._number("case", case),
                                 number(warm, "temperature", "warm"))

    def add_combination(self, name: str, cases: Mapping[str, float]) -> int:
        """Adds a combination: cases, each times a factor."""
        if not isinstance(cases, Mapping):
            raise errors.WrongArgument(f"is {type(cases).__name__}", thing="cases",
                                       remedy='give factors by case: {"parked": 1.5}')
        factors = [number(factor, "number", str(case)) for case, factor in cases.items()]
        with self._use().lock:
            columns = self._several("case", list(cases))
            made = calls.frame_add_combination(self._change(), name, columns, factors)
            return self._remember("combination", name, made)

    def set_case_story(self, case: Name, story: str, source: str = "") -> None:
        """Says in plain words why a case is there, and where its numbers come from."""
        with self._use().lock:
            calls.frame_set_case_story(self._change(), self._number("case", case), story, source)

    def add_gap(self, what: str, why: str) -> None:
        """Remembers what was asked for and cannot be looked at; checks list it as not checked."""
        with self._use().lock:
            calls.frame_add_gap(self._change(), what, why)

    def add_deck(self, name: str, joints: Sequence[Name]) -> int:
        """Adds a deck that lies on joints; its weight is a cargo of its own."""
        with self._use().lock:
            made = calls.frame_add_deck(self._change(), name, self._several("joint", joints))
            return self._remember("deck", name, made)

    def set_plate(self, deck: Name, *, corners: Optional[Sequence[Sequence[Quantity]]] = None,
                  slots: Sequence[Tuple[Sequence[Quantity], Sequence[Quantity], Quantity]] = (),
                  edge: Optional[Quantity] = None) -> None:
        """Says how a deck's plate is cut.

        Args:
            corners: of its outline, x and y in m each, one after the other round it; without them
                the plate reaches edge beyond the outline round its joints and holes
            slots: (from, to, width): the middles of both round ends, x and y in m, and its width
        """
        try:
            made = struct("plate", {"corners": corners, "edge": edge, "slots": [
                {"from": start, "to": end, "width": width} for start, end, width in slots]})
        except (TypeError, ValueError) as wrong:
            if isinstance(wrong, errors.TrivetError):
                raise
            raise errors.WrongArgument(f"are {slots!r:.40}", thing="slots",
                                       remedy="give (from, to, width) of each") from None
        with self._use().lock:
            calls.frame_set_plate(self._change(), self._number("deck", deck), made)

    def add_bolts(self, *, mount: Optional[Name] = None, tube: Optional[Name] = None,
                  deck: Optional[Name] = None, joint: Optional[Name] = None,
                  into_stock: Optional[Name] = None, clamped_stock: Optional[Name] = None,
                  axes: Any = None, **members: Any) -> int:
        """Adds bolts at a mount, at an end of a tube, or at a joint of a deck.

        Members are those of trivet.records.Bolts: thread, grade, count, head, into, clamped,
        engagement, torque, plate, edge, ... in SI units or as text with a unit.
        """
        made = struct("bolts", members)
        places = {"mount": mount, "tube": tube, "deck": deck}
        named = [(kind, name) for kind, name in places.items() if name is not None]
        if len(named) != 1:
            raise errors.Incomplete("want one place", thing="bolts",
                                    remedy="name a mount, a tube or a deck")
        if axes is not None:
            made.axes = quantities(_flat(axes), "number", 9, "axes")
        with self._use().lock:
            kind, name = named[0]
            made.where_kind = ENUMS["kind"][kind]
            made.where_index = self._number(kind, name)
            if joint is not None:
                made.joint = self._number("joint", joint)
            if into_stock is not None:
                made.into_stock = self._number("stock", into_stock)
            if clamped_stock is not None:
                made.clamped_stock = self._number("stock", clamped_stock)
            return calls.frame_add_bolts(self._change(), made)

    def set_weld(self, tube: Name, joint: Optional[Name] = None, *, sides: Any = None,
                 **members: Any) -> None:
        """Welds an end of a tube, or without joint both; members of trivet.records.Weld.

        sides are words from top, bottom, left, right; all of them if left out.
        """
        made = struct("weld", members)
        if sides is not None:
            made.sides = bits(sides, SIDES, "sides")
        with self._use().lock:
            end = -1 if joint is None else self._number("joint", joint)
            calls.frame_set_weld(self._change(), self._number("tube", tube), end, made)

    def add_cycles(self, name: str, to: Name, *, start: Optional[Name] = None,
                   count: float = 1e6, to_factor: float = 1.0, start_factor: float = 1.0) -> int:
        """Adds loads that come and go between two cases; without start from the unloaded frame."""
        made = struct("cycles", {"count": count, "to_factor": to_factor,
                                 "from_factor": start_factor})
        with self._use().lock:
            made.to = self._column(to)
            setattr(made, "from", -1 if start is None else self._column(start))
            return self._remember("cycles", name,
                                  calls.frame_add_cycles(self._change(), name, made))

    def set_vehicle(self, **members: Any) -> None:
        """Sets the vehicle under the frame; members of trivet.records.Vehicle."""
        made = struct("vehicle", members)
        with self._use().lock:
            calls.frame_set_vehicle(self._change(), made)

    def add_usage(self, kind: str, *, cargo: Optional[Name] = None, tube: Optional[Name] = None,
                  **members: Any) -> int:
        """Adds the ready-made cases of a usage, such as "road"; gives how many.

        Members of trivet.records.Usage replace its numbers.
        """
        made = self._struct_of("usage", members, calls.usage_of(code("usage_kind", kind, "usage")))
        with self._use().lock:
            if cargo is not None:
                made.cargo = self._number("cargo", cargo)
            if tube is not None:
                made.tube = self._number("tube", tube)
            count = calls.frame_add_usage(self._change(), made)
            self._forget("case")
            return count
