"""Threads: stress area, shear areas, engagement, tapping drill and hole depth.

Lengths of a thread are those of ISO 68-1 and ISO 724. The stripping formulas need the
limits of size of the actual tolerance classes: the bolt's least major diameter, not its
largest, and the hole's largest pitch diameter. Given the largest major diameter instead
they promise an engagement that is too short.
"""

from __future__ import annotations

import math

from ._bounds import require_positive, require_within
from .dimensions import Area, Force, Length, Number, Stress
from .limits import OutOfRange

__all__ = [
    "basic_internal_shear_area",
    "basic_pitch_diameter",
    "blind_hole_depth",
    "engagement_against_external_stripping",
    "engagement_against_internal_stripping",
    "external_thread_shear_area",
    "full_threads",
    "internal_thread_shear_area",
    "tapping_drill_diameter",
    "tensile_stress_area",
    "thread_shear_strength",
]

# tan 30°, the flank of a 60° thread, as the handbooks print it.
_TAN_30 = 0.57735


def _require_thread(diameter: Length, pitch: Length) -> None:
    require_positive(diameter, "thread diameter", "m")
    require_positive(pitch, "thread pitch", "m")
    if pitch > 0.3 * diameter:
        raise OutOfRange(
            f"The pitch is {pitch * 1e3:.4g} mm on a {diameter * 1e3:.4g} mm thread; an ISO metric "
            "thread has a pitch of at most 0.3 times its diameter."
        )


def _shear_area_per_length(
    pitch: Length, root: Length, pitch_diameter_gap: Length, what: str
) -> Length:
    require_positive(pitch, "thread pitch", "m")
    require_positive(root, what, "m")
    width = pitch / 2.0 + _TAN_30 * pitch_diameter_gap
    if not 0.0 < width < pitch:
        raise OutOfRange(
            f"The threads overlap by {pitch_diameter_gap * 1e3:.4g} mm at a pitch of "
            f"{pitch * 1e3:.4g} mm; these are not the limits of size of one mating pair."
        )
    return math.pi * root * width / pitch


def tensile_stress_area(diameter: Length, pitch: Length) -> Area:
    """Tensile stress area of an ISO metric thread, A_s = π/4·((d2 + d3)/2)², m².

    Source: ISO 898-1:2013, clause 9.1.6.1 and Table 4. Confidence: checked (values), from-memory
    (clause number).

    diameter: d, nominal [m], > 0
    pitch: P [m], at most 0.3·d
    Returns A_s [m²], the circle on d − 0.9382·P.
    Valid for: ISO metric threads.
    Raises OutOfRange: a size that is no such thread.

    M8, printed 36.6 mm²:

    >>> tensile_stress_area(0.008, 0.00125) * 1e6
    36.6
    """
    _require_thread(diameter, pitch)
    # Mean of d2 = d − 3√3/8·P and d3 = d − 17√3/24·P: handbooks print 0.9382 for 13√3/24.
    return math.pi / 4.0 * (diameter - 13.0 * math.sqrt(3.0) / 24.0 * pitch) ** 2


def basic_pitch_diameter(diameter: Length, pitch: Length) -> Length:
    """Basic pitch diameter of an ISO metric thread, d2 = d − 0.6495·P, m.

    Source: ISO 724:1993. Confidence: checked (values).

    diameter: d, nominal [m], > 0
    pitch: P [m], at most 0.3·d
    Returns d2 [m].
    Valid for: ISO metric threads, bolt and nut alike.
    Raises OutOfRange: a size that is no such thread.

    M8, printed 7.188 mm:

    >>> basic_pitch_diameter(0.008, 0.00125) * 1000
    7.188
    """
    _require_thread(diameter, pitch)
    return diameter - 3.0 * math.sqrt(3.0) / 8.0 * pitch


def internal_thread_shear_area(
    pitch: Length,
    least_major_diameter: Length,
    largest_pitch_diameter: Length,
    engagement: Length,
) -> Area:
    """Shear area of an internal thread, stripped by the bolt's crests, m².

    Source: FED-STD-H28/2B, thread-strip formula, also in Machinery's Handbook:
    π·n·L_e·D_s,min·(1/(2n) + 0.57735·(D_s,min − E_n,max)). Confidence: checked.

    pitch: P = 1/n [m], > 0
    least_major_diameter: D_s,min of the bolt, the LEAST in its tolerance [m], > 0
    largest_pitch_diameter: E_n,max of the hole, the largest in its tolerance [m]
    engagement: L_e in full threads of both parts [m], > 0
    Returns [m²].
    Valid for: 60° threads.
    Raises OutOfRange: limits of size that do not mate.

    M8, 6g in 6H, one diameter engaged, printed 134.63 mm²:

    >>> internal_thread_shear_area(0.00125, 0.00776, 0.007348, 0.008) * 1e6
    134.63
    """
    require_positive(engagement, "thread engagement", "m")
    gap = least_major_diameter - largest_pitch_diameter
    return engagement * _shear_area_per_length(
        pitch, least_major_diameter, gap, "least major diameter of the bolt"
    )


def external_thread_shear_area(
    pitch: Length,
    largest_minor_diameter: Length,
    least_pitch_diameter: Length,
    engagement: Length,
) -> Area:
    """Shear area of an external thread, stripped by the crests of the hole, m².

    Source: FED-STD-H28/2B, thread-strip formula, also in Machinery's Handbook:
    π·n·L_e·K_n,max·(1/(2n) + 0.57735·(E_s,min − K_n,max)). Confidence: checked.

    pitch: P = 1/n [m], > 0
    largest_minor_diameter: K_n,max of the hole, the largest in its tolerance [m], > 0
    least_pitch_diameter: E_s,min of the bolt, the least in its tolerance [m]
    engagement: L_e in full threads of both parts [m], > 0
    Returns [m²].
    Valid for: 60° threads.
    Raises OutOfRange: limits of size that do not mate.

    M8, 6g in 6H, one diameter engaged, printed 97.290 mm²:

    >>> external_thread_shear_area(0.00125, 0.006912, 0.007042, 0.008) * 1e6
    97.29
    """
    require_positive(engagement, "thread engagement", "m")
    gap = least_pitch_diameter - largest_minor_diameter
    return engagement * _shear_area_per_length(
        pitch, largest_minor_diameter, gap, "largest minor diameter of the hole"
    )


def basic_internal_shear_area(diameter: Length, engagement: Length) -> Area:
    """Shear area of an internal thread at basic size, 0.875·π·d·L_e, m².

    Source: FED-STD-H28/2B formula at basic size, as handbooks shorten it. Confidence: checked.

    diameter: d, nominal [m], > 0
    engagement: L_e in full threads of both parts [m], > 0
    Returns [m²]; some 30 % more than a slack 6g bolt in a 6H hole really has.
    Valid for: a first look only, when no limits of size are known.
    Raises OutOfRange: a value not above zero.

    >>> basic_internal_shear_area(0.008, 0.001) * 1e6
    21.99
    """
    require_positive(diameter, "thread diameter", "m")
    require_positive(engagement, "thread engagement", "m")
    return 0.875 * math.pi * diameter * engagement


def thread_shear_strength(tensile_strength: Stress) -> Stress:
    """Shear strength of thread material from its tensile strength, 0.577·f_u, Pa.

    Source: distortion-energy theory, 1/√3, as the thread-strip formulas use it.
    Confidence: checked.

    tensile_strength: f_u of the part that would strip [Pa], > 0
    Returns [Pa].
    Valid for: ductile steel and aluminium, not cast iron.
    Raises OutOfRange: a strength not above zero.

    >>> thread_shear_strength(360e6) / 1e6
    207.72
    """
    require_positive(tensile_strength, "tensile strength of the tapped part", "Pa")
    return 0.577 * tensile_strength


def engagement_against_internal_stripping(
    load: Force,
    shear_strength: Stress,
    pitch: Length,
    least_major_diameter: Length,
    largest_pitch_diameter: Length,
) -> Length:
    """Thread engagement at which a tapped hole just carries a load without stripping, m.

    Source: FED-STD-H28/2B, thread-strip formula solved for L_e. Confidence: checked.

    load: f_ub·A_s, so that the bolt breaks first, or the load itself [N], > 0
    shear_strength: of the tapped part, see ``thread_shear_strength`` [Pa], > 0
    pitch: P [m], > 0
    least_major_diameter: D_s,min of the bolt, the LEAST in its tolerance [m], > 0
    largest_pitch_diameter: E_n,max of the hole, the largest in its tolerance [m]
    Returns L_e in full threads of both parts [m]; chamfers and run-outs come on top.
    Valid for: 60° threads.
    Raises OutOfRange: limits of size that do not mate.

    Bolting handbook, M10 in aluminium, printed 21.6 mm:

    >>> engagement_against_internal_stripping(69600.0, 130e6, 0.0015, 0.009968, 0.009206) * 1000
    21.55
    """
    require_positive(load, "load on the thread", "N")
    require_positive(shear_strength, "shear strength of the tapped part", "Pa")
    gap = least_major_diameter - largest_pitch_diameter
    per_length = _shear_area_per_length(
        pitch, least_major_diameter, gap, "least major diameter of the bolt"
    )
    return load / (shear_strength * per_length)


def engagement_against_external_stripping(
    stress_area: Area,
    pitch: Length,
    largest_minor_diameter: Length,
    least_pitch_diameter: Length,
) -> Length:
    """Thread engagement at which a bolt breaks before its own thread strips, m.

    Source: Machinery's Handbook, 24th ed., formula 1 for length of engagement:
    2·A_t/(π·K_n,max·(1/2 + 0.57735·n·(E_s,min − K_n,max))). Confidence: checked.

    stress_area: A_t, tensile stress area of the bolt [m²], > 0
    pitch: P = 1/n [m], > 0
    largest_minor_diameter: K_n,max of the hole, the largest in its tolerance [m], > 0
    least_pitch_diameter: E_s,min of the bolt, the least in its tolerance [m]
    Returns L_e in full threads of both parts [m]; the factor 2 leaves a small margin.
    Valid for: bolt and tapped part of equal strength; a weaker part needs
    ``engagement_against_internal_stripping`` as well.
    Raises OutOfRange: limits of size that do not mate.

    Arithmetic of the formula, M8 6g in 6H:

    >>> engagement_against_external_stripping(36.6e-6, 0.00125, 0.006912, 0.007042) * 1000
    6.02
    """
    require_positive(stress_area, "tensile stress area", "m²")
    gap = least_pitch_diameter - largest_minor_diameter
    per_length = _shear_area_per_length(
        pitch, largest_minor_diameter, gap, "largest minor diameter of the hole"
    )
    return 2.0 * stress_area / per_length


def full_threads(engagement: Length, pitch: Length) -> Number:
    """Threads engaged in a sheet or plate, L/P, dimensionless.

    Source: geometry; that fewer than three cannot be tightened is common practice.
    Confidence: common-practice.

    engagement: thickness that carries thread [m], > 0
    pitch: P [m], > 0
    Returns the number of threads.
    Valid for: a tapped hole without chamfer.
    Raises OutOfRange: a value not above zero.

    >>> full_threads(0.002, 0.00125)
    1.6
    """
    require_positive(engagement, "thickness that carries thread", "m")
    require_positive(pitch, "thread pitch", "m")
    return engagement / pitch


def tapping_drill_diameter(diameter: Length, pitch: Length) -> Length:
    """Tapping drill of an ISO metric thread, d − P, m.

    Source: rule of ISO 2306:1972, clause 0, which calls it approximate. Confidence: checked.

    diameter: d, nominal [m], > 0
    pitch: P [m], at most 0.3·d
    Returns [m]; Table 1 of the standard rounds to stocked drills, within 0.1 mm.
    Valid for: cut threads, not formed ones.
    Raises OutOfRange: a size that is no such thread.

    >>> tapping_drill_diameter(0.010, 0.0015) * 1000
    8.5
    """
    _require_thread(diameter, pitch)
    return diameter - pitch


def blind_hole_depth(thread_depth: Length, diameter: Length) -> Length:
    """Drilling depth of a blind tapped hole, 1.2 times the thread depth, m.

    Source: BS 1936 as quoted in workshop texts. Confidence: checked.

    thread_depth: full thread needed [m], > 0
    diameter: d, nominal [m], 6 mm to 12 mm
    Returns [m], without the drill point.
    Valid for: M6 to M12.
    Raises OutOfRange: another size.

    >>> blind_hole_depth(0.015, 0.010) * 1000
    18.0
    """
    require_positive(thread_depth, "thread depth", "m")
    require_within(diameter * 1e3, 6.0, 12.0, "thread diameter", "mm", "the blind-hole rule")
    return 1.2 * thread_depth
