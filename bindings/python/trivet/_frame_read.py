"""Looking at a frame: what is in it, in the order in which it was added."""
from typing import TYPE_CHECKING, Any, Dict, List, Optional, Tuple

from . import _calls as calls
from . import errors, records
from ._c import ENUMS, Numbers
from ._frame_core import KINDS, FrameCore, Name

if TYPE_CHECKING:
    from .shop import Cutting


def needed(value: Any, thing: str) -> Any:
    """What must be there once its name was found."""
    if value is None:
        raise errors.BadIndex("is not there", thing=thing)
    return value


class Reading(FrameCore):
    """Names give names, records and arrays; arrays stay in the library and are read-only."""

    @property
    def joints(self) -> Tuple[str, ...]:
        """Names of the joints."""
        return tuple(self._names("joint"))

    @property
    def stocks(self) -> Tuple[str, ...]:
        """Names of the stock."""
        return tuple(self._names("stock"))

    @property
    def tubes(self) -> Tuple[str, ...]:
        """Names of the tubes."""
        return tuple(self._names("tube"))

    @property
    def mounts(self) -> Tuple[str, ...]:
        """Names of the mounts: those of their joints."""
        return tuple(self._names("mount"))

    @property
    def cargoes(self) -> Tuple[str, ...]:
        """Names of the cargo."""
        return tuple(self._names("cargo"))

    @property
    def cases(self) -> Tuple[str, ...]:
        """Names of the cases."""
        return tuple(self._names("case"))

    @property
    def combinations(self) -> Tuple[str, ...]:
        """Names of the combinations."""
        return tuple(self._names("combination"))

    @property
    def decks(self) -> Tuple[str, ...]:
        """Names of the decks."""
        return tuple(self._names("deck"))

    @property
    def cycles_names(self) -> Tuple[str, ...]:
        """Names of the loads that come and go."""
        return tuple(self._names("cycles"))

    def position(self, joint: Name) -> Numbers:
        """Where a joint is: [3], m, world axes."""
        found: Numbers = needed(
            calls.frame_position(self._use(), self._number("joint", joint)), "joint")
        return found

    def droop_limit(self, joint: Name) -> Optional[float]:
        """How far a joint may come down, m; None if there is no limit."""
        limit = calls.frame_droop_limit(self._use(), self._number("joint", joint))
        return limit if limit == limit else None

    def section(self, stock: Name) -> records.Section:
        """Section values of stock."""
        found: records.Section = needed(
            calls.frame_section(self._use(), self._number("stock", stock)), "stock")
        return found

    def profile(self, stock: Name) -> records.Profile:
        """The profile of stock."""
        found: records.Profile = needed(
            calls.frame_profile(self._use(), self._number("stock", stock)), "stock")
        return found

    def material(self, stock: Name) -> records.Material:
        """The material of stock."""
        found: records.Material = needed(
            calls.frame_material(self._use(), self._number("stock", stock)), "stock")
        return found

    def radii(self, stock: Name) -> Tuple[float, float]:
        """How far the corners of a square or rectangular tube are rounded, outside, inside: m."""
        from .stock import radii
        return radii(self.profile(stock))

    def profile_text(self, stock: Name) -> str:
        """A profile as people say it: "square tube 20 x 20 x 2 mm"."""
        from .stock import profile_text
        return profile_text(self.profile(stock), units=self._units)

    def tube_joints(self, tube: Name) -> Tuple[str, ...]:
        """Names of the joints along a tube."""
        numbers = calls.frame_tube_joints(self._use(), self._number("tube", tube))
        names = self.joints
        return tuple(names[index] for index in needed(numbers, "tube"))

    def tube_stock(self, tube: Name) -> str:
        """Name of the stock of a tube."""
        return self.stocks[calls.frame_tube_stock(self._use(), self._number("tube", tube))]

    def tube_length(self, tube: Name) -> float:
        """Length of a tube with its offsets, m."""
        return calls.frame_tube_length(self._use(), self._number("tube", tube))

    def offset(self, tube: Name, joint: Name) -> Tuple[float, ...]:
        """From a joint to the tube's own line there: [3], m, world axes."""
        return calls.frame_offset(self._use(), self._number("tube", tube),
                                  self._number("joint", joint))

    def tube_mass(self, tube: Name) -> float:
        """Mass of a tube with its inserts, kg."""
        return calls.frame_tube_mass(self._use(), self._number("tube", tube))

    def inserts(self, tube: Name) -> List[records.Insert]:
        """The inserts of a tube."""
        handle, number = self._use(), self._number("tube", tube)
        return [calls.frame_insert(handle, number, index)
                for index in range(calls.frame_insert_count(handle, number))]

    def mount(self, mount: Name) -> records.Mount:
        """What a mount holds."""
        return calls.frame_mount(self._use(), self._number("mount", mount))

    def cargo(self, cargo: Name) -> records.Cargo:
        """Mass, centre and grip of a cargo."""
        return calls.frame_cargo(self._use(), self._number("cargo", cargo))

    def items(self, cargo: Name) -> Dict[str, float]:
        """What is in a cargo: masses in kg by name."""
        handle, number = self._use(), self._number("cargo", cargo)
        found: Dict[str, float] = {}
        for index in range(calls.frame_cargo(handle, number).item_count):
            name, mass = calls.frame_item(handle, number, index)
            found[name or ""] = mass
        return found

    @property
    def mass(self) -> float:
        """Mass of the frame without cargo, kg."""
        return calls.frame_mass(self._use())

    def gravity(self, case: Name) -> Numbers:
        """Gravity of a case: [3], multiples of 9.80665 m/s^2, world axes."""
        found: Numbers = needed(calls.frame_gravity(self._use(), self._number("case", case)),
                                "case")
        return found

    def column_name(self, column: int) -> Optional[str]:
        """Name of a result column: of a case, then of a combination; None past the last."""
        return calls.frame_column_name(self._use(), column)

    def case_text(self, case: Name) -> str:
        """A case or combination as one line: "gravity 2 g down"."""
        return calls.case_text(self._use(), self._column(case), self._units)

    def case_story(self, case: Name) -> Tuple[str, str]:
        """Why a case is there, and where its numbers come from."""
        story, source = calls.frame_case_story(self._use(), self._number("case", case))
        return story or "", source

    @property
    def gaps(self) -> List[Tuple[str, str]]:
        """What was asked for and cannot be looked at, and what to add."""
        found: List[Tuple[str, str]] = []
        while True:
            what, why = calls.frame_gap(self._use(), len(found))
            if what is None:
                return found
            found.append((what, why))

    def corner(self, joint: Name) -> Tuple[float, float]:
        """By how much two tubes turn at a joint, and how each end is cut off square: rad."""
        return calls.frame_corner(self._use(), self._number("joint", joint))

    def deck_joints(self, deck: Name) -> Tuple[str, ...]:
        """Names of the joints under a deck."""
        numbers = calls.frame_deck_joints(self._use(), self._number("deck", deck))
        names = self.joints
        return tuple(names[index] for index in needed(numbers, "deck"))

    def plate(self, deck: Name) -> records.Plate:
        """How a deck's plate is cut, as it was said; without corners its outline follows edge."""
        return calls.frame_plate(self._use(), self._number("deck", deck))

    def validate_plate(self, deck: Name) -> None:
        """Raises what keeps a deck's plate from being laid out; nothing if it can be."""
        handle = self._use()
        with handle.lock:
            calls.frame_validate_plate(handle, self._number("deck", deck))

    def cutting(self, deck: Name) -> "Cutting":
        """What is cut out of sheet for a deck: outline, holes and slots in real size."""
        from .shop import Cutting
        return Cutting(calls.cutting_new(self._use(), self._number("deck", deck)))

    @property
    def bolts(self) -> List[records.Bolts]:
        """All sets of bolts."""
        handle = self._use()
        return [calls.frame_bolts(handle, index)
                for index in range(calls.frame_bolts_count(handle))]

    def bolts_text(self, bolts: int) -> str:
        """A set of bolts by its number, in words: "2 x M6 8.8"."""
        return calls.bolts_text(self._use(), bolts, self._units)

    def bolts_place(self, bolts: int) -> str:
        """Where a set of bolts sits: "mount FL"."""
        return calls.bolts_place_text(self._use(), bolts)

    def torque(self, bolts: int) -> records.Torque:
        """How tight a set of bolts may be made."""
        return calls.frame_torque(self._use(), bolts)

    def weld(self, tube: Name, joint: Name) -> records.Weld:
        """The weld at an end of a tube; kind is "not said" if there is none."""
        return calls.frame_weld(self._use(), self._number("tube", tube),
                                self._number("joint", joint))

    def weld_text(self, tube: Name, joint: Name) -> str:
        """The same in words."""
        weld = self._struct_of("weld", dict(vars(self.weld(tube, joint))))
        return calls.weld_text(weld, self._units)

    def cycles(self, cycles: Name) -> records.Cycles:
        """Loads that come and go, by name."""
        return calls.frame_cycles(self._use(), self._number("cycles", cycles))

    def cycles_text(self, cycles: Name) -> str:
        """The same in words."""
        return calls.cycles_text(self._use(), self._number("cycles", cycles))

    @property
    def vehicle(self) -> records.Vehicle:
        """The vehicle under the frame."""
        return calls.frame_vehicle(self._use())

    def has_usage(self, kind: str) -> bool:
        """Whether the cases of a usage were added."""
        from ._c import code
        return calls.frame_has_usage(self._use(), code("usage_kind", kind, "usage"))

    def relief(self) -> Tuple[float, ...]:
        """What frame and cargo take off the front wheel, kg: parked, on the slope, pulling away."""
        return calls.vehicle_relief(self._use())

    def validate(self) -> None:
        """Raises what stands against working the frame out; nothing if it can be tried."""
        calls.frame_validate(self._use())

    def counts(self) -> Dict[str, int]:
        """How many things of each kind there are."""
        return {calls.kind_text(code) or kind: calls.frame_count(self._use(), code)
                for kind, code in KINDS.items()}


def usages() -> Tuple[str, ...]:
    """The ready-made groups of cases.

    >>> import trivet
    >>> trivet.usages()[:3]
    ('road', 'rough track', 'two-up')
    """
    return tuple(calls.usage_text(kind) or "" for kind in ENUMS["usage_kind"].values())
