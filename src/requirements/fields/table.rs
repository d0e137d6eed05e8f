//! The table itself, in the order of the file format.

use super::FieldRange::{Above, Any, Within};
use super::Holds::{Choice, Flag, List, Number, Object, Quantity, Text};
use super::On::{Both, Hinge, Slide};
use super::{Field, FieldRange, Holds, On, Without};
use crate::quantity::{Kind, exact, nine_digits, parse_as};
use crate::reading::Tree;

const fn field(
    path: &'static str,
    on: On,
    holds: Holds,
    range: FieldRange,
    without: Without,
    meaning: &'static str,
) -> Field {
    Field {
        path,
        on,
        holds,
        range,
        without,
        meaning,
    }
}

const LENGTH: Holds = Quantity(Kind::Length);
const MASS: Holds = Quantity(Kind::Mass);
const TIME: Holds = Quantity(Kind::Time);
const FORCE: Holds = Quantity(Kind::Force);
const TORQUE: Holds = Quantity(Kind::Torque);
const ANGLE: Holds = Quantity(Kind::Angle);
const TEMPERATURE: Holds = Quantity(Kind::Temperature);
const PLACE: FieldRange = Within("-100 m", "100 m");
const DISTANCE: FieldRange = Within("0 m", "100 m");
const PUSH: FieldRange = Within("-1e8 N", "1e8 N");
const TWIST: FieldRange = Within("-1e8 Nm", "1e8 Nm");
const MONEY: FieldRange = Within("0", "1e9");
const NO_FORCE: Without = Without::Text("0 N", "none was given");
const NO_TORQUE: Without = Without::Text("0 Nm", "none was given");
const ON_THE_LINE: &str = "taken to lie on the guide line";
const LOCAL: &str = "a middling price; give the local one";

/// Every field of a requirements file.
#[rustfmt::skip]
pub const FIELDS: &[Field] = &[
    field("format", Both, Text, Any, Without::Refused, "\"counterpoise-requirements/2\""),
    field("$schema", Both, Text, Any, Without::Nothing, "where the schema of the file is, for an editor"),
    field("notes", Both, Text, Any, Without::Nothing, "what is to be remembered of the job"),
    field("unfinished", Both, Flag, Any, Without::Nothing, "whether questions are still open"),
    field("unsure", Both, List, Any, Without::Nothing, "paths of answers that the person was not sure of"),
    field("unsure[]", Both, Text, Any, Without::Nothing, "path of an answer"),
    field("title", Both, Text, Any, Without::Text("Untitled job", "no title was given"), "what the job is called"),
    field("currency", Both, Text, Any, Without::Refused, "the currency of all money, such as \"EUR\""),
    field("motion", Both, Object, Any, Without::Made, "how the load moves"),
    field("motion.kind", Both, Choice(&["slide", "hinge"]), Any, Without::Refused, "\"slide\" along a straight line or \"hinge\" about an axis"),
    field("motion.incline", Slide, ANGLE, Within("-90 deg", "90 deg"), Without::Refused, "of the outward stroke above level, such as \"90 deg\" for straight up"),
    field("motion.travel", Slide, LENGTH, Within("0.1 mm", "100 m"), Without::Refused, "length of the stroke, such as \"900 mm\""),
    field("motion.from", Hinge, ANGLE, Within("-360 deg", "360 deg"), Without::Refused, "arm angle above level at the back end, such as \"0 deg\""),
    field("motion.to", Hinge, ANGLE, Within("-360 deg", "360 deg"), Without::Refused, "arm angle above level at the out end, such as \"80 deg\""),
    field("motion.axis", Hinge, Choice(&["level", "upright"]), Any, Without::Text("level", "a lid or arm whose weight the drive carries"), "whether the hinge's axis is level or upright"),
    field("motion.load", Both, Object, Any, Without::Made, "what moves, carriage included"),
    field("motion.load.least", Both, MASS, Within("1 g", "1000 t"), Without::Worked(same_as_most, "the load is taken never to change"), "least load"),
    field("motion.load.most", Both, MASS, Within("1 g", "1000 t"), Without::Refused, "most load, carriage included, such as \"85 kg\""),
    field("motion.offset", Slide, LENGTH, DISTANCE, Without::Text("0 mm", ON_THE_LINE), "from the guide line to the centre of mass, square to travel"),
    field("motion.drive_offset", Slide, LENGTH, DISTANCE, Without::Text("0 mm", ON_THE_LINE), "from the guide line to the line of the drive"),
    field("motion.overhang", Slide, LENGTH, DISTANCE, Without::Text("0 mm", "the centre of mass is taken to lie midway between the guide bearings"), "of the centre of mass beyond the middle of the guide bearings, along travel"),
    field("motion.overhang_grows", Slide, Flag, Any, Without::Flag(false, "the guide bearings are taken to travel with the load"), "whether the overhang grows with the travel"),
    field("motion.drag", Slide, FORCE, Within("0 N", "1e8 N"), Without::Text("0 N", "no seals or wipers are taken to drag"), "constant drag of seals"),
    field("motion.guide", Slide, Object, Any, Without::Made, "the guide"),
    field("motion.guide.friction", Slide, Number, Within("0", "1.5"), Without::Number(0.05, "between rolling (0.005 to 0.02) and plain guides (0.1 to 0.2): common practice"), "coefficient of friction of the guide"),
    field("motion.guide.bearing_spacing", Slide, LENGTH, Within("1 mm", "100 m"), Without::Worked(quarter_of_travel, "a quarter of the travel, at least 100 mm: common practice"), "spacing of the guide bearings along travel"),
    field("motion.guide.supplied", Slide, Flag, Any, Without::Flag(true, "the machine is taken to have its guide; write false to have one chosen and priced"), "whether the machine brings its own guide"),
    field("motion.centre_of_mass", Hinge, Object, Any, Without::Made, "the centre of mass of arm and load"),
    field("motion.centre_of_mass.radius", Hinge, LENGTH, Within("0 m", "100 m"), Without::Refused, "from the pivot to the centre of mass, such as \"400 mm\""),
    field("motion.centre_of_mass.angle", Hinge, ANGLE, Within("-360 deg", "360 deg"), Without::Text("0 deg", "the centre of mass is taken to lie on the arm line"), "of the centre of mass from the arm line"),
    field("motion.inertia", Hinge, Quantity(Kind::Inertia), Within("0 kg m2", "1e10 kg m2"), Without::Worked(uniform_bar, "m r²/3, as of a uniform bar"), "about the centre of mass, at the most load"),
    field("motion.pivot_friction", Hinge, TORQUE, Within("0 Nm", "1e8 Nm"), Without::Text("0 Nm", "no friction was given; rolling bearings have little"), "friction of the pivot"),
    field("motion.tail_radius", Hinge, LENGTH, Above("0 m", "100 m"), Without::Absent("no tail weight", "none was asked for"), "radius of a tail weight, if one may be fitted"),
    field("motion.anchors", Hinge, Object, Any, Without::Absent("none", "the drive's pins are still free"), "the drive's pins, x level and y up from the pivot with the arm level"),
    field("motion.anchors.base", Hinge, List, Any, Without::Refused, "the pin on the base, such as [\"-200 mm\", \"-300 mm\"]"),
    field("motion.anchors.base[]", Hinge, LENGTH, PLACE, Without::Nothing, "x or y of the pin on the base"),
    field("motion.anchors.arm", Hinge, List, Any, Without::Refused, "the pin on the arm, such as [\"350 mm\", \"0 mm\"]"),
    field("motion.anchors.arm[]", Hinge, LENGTH, PLACE, Without::Nothing, "x or y of the pin on the arm"),
    field("motion.anchor_zones", Hinge, Object, Any, Without::Nothing, "where the drive's pins may be"),
    field("motion.anchor_zones.base", Hinge, Object, Any, Without::Refused, "where the pin on the base may be"),
    field("motion.anchor_zones.base.x", Hinge, List, Any, Without::Refused, "least and most x, such as [\"-500 mm\", \"0 mm\"]"),
    field("motion.anchor_zones.base.x[]", Hinge, LENGTH, PLACE, Without::Nothing, "least or most x"),
    field("motion.anchor_zones.base.y", Hinge, List, Any, Without::Refused, "least and most y, such as [\"-600 mm\", \"-100 mm\"]"),
    field("motion.anchor_zones.base.y[]", Hinge, LENGTH, PLACE, Without::Nothing, "least or most y"),
    field("motion.anchor_zones.arm", Hinge, Object, Any, Without::Refused, "where the pin on the arm may be"),
    field("motion.anchor_zones.arm.x", Hinge, List, Any, Without::Refused, "least and most x, such as [\"150 mm\", \"500 mm\"]"),
    field("motion.anchor_zones.arm.x[]", Hinge, LENGTH, PLACE, Without::Nothing, "least or most x"),
    field("motion.anchor_zones.arm.y", Hinge, List, Any, Without::Refused, "least and most y, such as [\"-50 mm\", \"50 mm\"]"),
    field("motion.anchor_zones.arm.y[]", Hinge, LENGTH, PLACE, Without::Nothing, "least or most y"),
    field("motion.process", Both, List, Any, Without::Empty("no process force was given"), "process force over position"),
    field("motion.process[].at", Slide, LENGTH, PLACE, Without::Refused, "position from the back end, such as \"100 mm\""),
    field("motion.process[].out", Slide, FORCE, PUSH, NO_FORCE, "force against the outward stroke"),
    field("motion.process[].back", Slide, FORCE, PUSH, NO_FORCE, "force against the return"),
    field("motion.process[].hold", Slide, FORCE, PUSH, NO_FORCE, "force to be held at rest there, positive pushes back"),
    field("motion.process[].at", Hinge, ANGLE, Within("-720 deg", "720 deg"), Without::Refused, "arm angle, such as \"30 deg\""),
    field("motion.process[].out", Hinge, TORQUE, TWIST, NO_TORQUE, "torque against the outward swing"),
    field("motion.process[].back", Hinge, TORQUE, TWIST, NO_TORQUE, "torque against the return"),
    field("motion.process[].hold", Hinge, TORQUE, TWIST, NO_TORQUE, "torque to be held at rest there, positive pushes back"),
    field("motion.law", Both, Choice(LAWS), Any, Without::Text("trapezoid", "the plainest law that every drive can follow"), "motion law"),
    field("motion.ramps", Both, List, Any, Without::Worked(thirds, "a third of the stroke's time to speed up and a third to slow down"), "parts of the stroke's time spent speeding up and slowing down"),
    field("motion.ramps[]", Both, Number, Any, Without::Nothing, "part of the stroke's time, more than 0"),
    field("timing", Both, Object, Any, Without::Made, "how often and how long"),
    field("timing.rest_out", Both, TIME, Within("0 s", "1e6 h"), Without::Text("0 s", "no rest was asked for"), "rest at the out end"),
    field("timing.rest_back", Both, TIME, Within("0 s", "1e6 h"), Without::Text("0 s", "no rest was asked for"), "least rest at the back end"),
    field("timing.cycles_per_hour", Both, Number, Within("1e-6", "1e6"), Without::Refused, "cycles (out and back) an hour, such as 4"),
    field("timing.hours_per_day", Both, Number, Above("0", "24"), Without::Number(8.0, "one shift"), "hours a day"),
    field("timing.days_per_year", Both, Number, Above("0", "366"), Without::Number(220.0, "a working year"), "days a year"),
    field("timing.years", Both, Number, Above("0", "100"), Without::Number(10.0, "a usual life of a workshop machine"), "years the machine is to last"),
    field("stops", Both, Choice(&["ends", "several", "anywhere"]), Any, Without::Text("ends", "no stop between the ends was asked for"), "where the load must be able to stop"),
    field("power_loss", Both, Choice(&["hold", "may_move"]), Any, Without::Text("hold", "the safe one: the load stays where it is when the power fails"), "what the load may do when the power fails"),
    field("site", Both, Object, Any, Without::Refused, "what the place offers and allows"),
    field("site.mains", Both, Object, Any, Without::Absent("none", "the place has no electricity, so no motor, compressor or oil unit"), "electricity of the place"),
    field("site.mains.voltage", Both, Quantity(Kind::Voltage), Above("0 V", "100000 V"), Without::Text("230 V", "a common mains voltage"), "voltage"),
    field("site.mains.power", Both, Quantity(Kind::Power), Above("0 W", "1e8 W"), Without::Refused, "greatest power to be drawn, such as \"2.5 kW\""),
    field("site.mains.current", Both, Choice(&["ac", "dc"]), Any, Without::Worked(current, "below 60 V a battery or supply of direct current, above it alternating mains"), "alternating or direct"),
    field("site.mains.phases", Both, Number, Within("1", "3"), Without::Worked(phases, "three from 380 V, with a neutral, else one"), "1 or 3, of alternating current"),
    field("site.air", Both, Object, Any, Without::Absent("none", "the place has no compressed air; a compressor would have to be bought"), "compressed air of the place"),
    field("site.air.pressure", Both, Quantity(Kind::Pressure), Above("0 bar", "1000 bar"), Without::Text("6 bar", "a common pressure of workshop air, above the atmosphere"), "pressure above the atmosphere"),
    field("site.air.flow", Both, Quantity(Kind::Flow), Above("0 L/min", "1e9 L/min"), Without::Refused, "flow of free air, such as \"150 L/min\""),
    field("site.hand", Both, Object, Any, Without::Absent("nobody", "nobody is there to turn a crank"), "somebody to turn a crank"),
    field("site.hand.force", Both, FORCE, Above("0 N", "1000 N"), Without::Text("120 N", "what a person turns for a spell: common practice"), "greatest force at the handle"),
    field("site.hand.cost_per_hour", Both, Number, MONEY, Without::Worked(labour_rate, "the labour rate; write 0 where the person stands there anyway"), "money an hour for the time spent cranking"),
    field("site.temperature", Both, Object, Any, Without::Made, "temperature of the place"),
    field("site.temperature.least", Both, TEMPERATURE, Within("-273 degC", "2000 degC"), Without::Text("5 degC", "indoors, free of frost"), "coldest"),
    field("site.temperature.most", Both, TEMPERATURE, Within("-273 degC", "2000 degC"), Without::Text("40 degC", "indoors on a hot day"), "hottest"),
    field("site.dirt", Both, Choice(&["clean", "dusty", "gritty"]), Any, Without::Text("clean", "no dirt was named"), "dirt at the place"),
    field("site.water", Both, Choice(&["dry", "splash", "washdown"]), Any, Without::Text("dry", "no water was named"), "water at the place"),
    field("site.oil_tolerated", Both, Flag, Any, Without::Flag(true, "nothing was said against oil"), "whether an oil leak is tolerated"),
    field("site.explosive_atmosphere", Both, Flag, Any, Without::Flag(false, "none was named; write true wherever gas, vapour or dust could explode"), "whether the atmosphere may explode"),
    field("site.units", Both, Object, Any, Without::Absent("dry, clean, 5 to 40 degC, 5 m away", "compressor, oil unit, cabinet, drive electronics and supplies stand apart from the machine, in a room"), "where compressor, oil unit, cabinet, drive electronics and supplies stand"),
    field("site.units.temperature", Both, Object, Any, Without::Made, "temperature of their place"),
    field("site.units.temperature.least", Both, TEMPERATURE, Within("-273 degC", "2000 degC"), Without::Text("5 degC", "in a room free of frost"), "coldest"),
    field("site.units.temperature.most", Both, TEMPERATURE, Within("-273 degC", "2000 degC"), Without::Text("40 degC", "in a room on a hot day"), "hottest"),
    field("site.units.dirt", Both, Choice(&["clean", "dusty", "gritty"]), Any, Without::Text("clean", "in a room"), "dirt at their place"),
    field("site.units.water", Both, Choice(&["dry", "splash", "washdown"]), Any, Without::Text("dry", "in a room"), "water at their place"),
    field("site.units.distance", Both, LENGTH, Within("0 m", "1000 m"), Without::Text("5 m", "the next room"), "from the machine, along hoses and cables"),
    field("site.units.explosive_atmosphere", Both, Flag, Any, Without::Worked(as_the_machine, "as at the machine; write false where they stand outside the zone"), "whether their atmosphere may explode"),
    field("base", Both, Object, Any, Without::Absent("none", "tipping and sliding on the floor are not checked"), "what the machine stands on"),
    field("base.length", Both, LENGTH, Above("0 m", "1000 m"), Without::Refused, "along the level projection of travel, such as \"1.2 m\""),
    field("base.width", Both, LENGTH, Above("0 m", "1000 m"), Without::Refused, "across travel, such as \"0.8 m\""),
    field("base.mass", Both, MASS, Above("0 kg", "1e9 kg"), Without::Refused, "of the machine without its load, such as \"150 kg\""),
    field("base.centre_height", Both, LENGTH, DISTANCE, Without::Refused, "height of the machine's centre of mass, such as \"0.7 m\""),
    field("base.centre_x", Both, LENGTH, PLACE, Without::Text("0 m", "the machine's centre of mass is taken to be over the middle of its base"), "place of the machine's centre of mass along the length, from the middle"),
    field("base.load_reach", Both, LENGTH, PLACE, Without::Text("0 m", "the load is taken to start over the middle of the base"), "of the load's centre of mass at the back end, from the middle"),
    field("base.load_height", Both, LENGTH, PLACE, Without::Worked(centre_height, "the height of the machine's centre of mass"), "height of the load's centre of mass at the back end"),
    field("base.assist_reach", Both, LENGTH, PLACE, Without::Text("0 m", "a counterweight is taken to hang over the middle of the base"), "of the counterweight, from the middle"),
    field("base.stop_distance", Both, LENGTH, Above("0 m", "100 m"), Without::Absent("none", "the deceleration of an emergency stop follows rules.stop_deceleration and rules.stop_distance_default"), "distance in which an emergency stop ends"),
    field("base.bolted", Both, Flag, Any, Without::Flag(false, "the machine is taken to stand free, the harder case"), "whether the machine is bolted down"),
    field("structure", Both, Object, Any, Without::Nothing, "the arm or beam that carries the load"),
    field("structure.shape", Both, Choice(&["rectangle", "box", "round", "tube"]), Any, Without::Refused, "\"rectangle\", \"box\", \"round\" or \"tube\""),
    field("structure.width", Both, LENGTH, Above("0 m", "10 m"), Without::Refused, "width, or diameter of a round one, such as \"60 mm\""),
    field("structure.height", Both, LENGTH, Above("0 m", "10 m"), Without::Nothing, "height of a rectangle or box, in the direction of the load"),
    field("structure.wall", Both, LENGTH, Above("0 m", "10 m"), Without::Nothing, "wall of a box or tube"),
    field("structure.length", Both, LENGTH, Above("0 m", "100 m"), Without::Refused, "length, such as \"1 m\""),
    field("structure.material", Both, Choice(&["steel", "aluminium", "oak", "pine"]), Any, Without::Text("steel", "the usual material"), "material"),
    field("structure.support", Both, Choice(&["cantilever", "both_ends"]), Any, Without::Text("cantilever", "the harder case"), "whether it is held at one end or at both"),
    field("structure.deflection", Both, Object, Any, Without::Nothing, "how far it may bend"),
    field("structure.deflection.limit", Both, LENGTH, Above("0 m", "1 m"), Without::Refused, "greatest deflection, such as \"1 mm\""),
    field("goals", Both, Object, Any, Without::Made, "what is wanted and what it is worth"),
    field("goals.travel_time", Both, Object, Any, Without::Refused, "the worse of out and back, such as { \"limit\": \"20 s\" }"),
    field("goals.*.limit", Both, Text, Any, Without::Refused, "worse than this is out"),
    field("goals.*.target", Both, Text, Any, Without::Nothing, "better than this is worth no more"),
    field("goals.*.worth", Both, Number, MONEY, Without::Nothing, "money, once, over the horizon, for going from limit to target"),
    field("goals.*.sure", Both, Choice(&["little", "fairly", "very"]), Any, Without::Worked(fairly_sure, "the worth is taken to be right within 50 %"), "how sure the worth is: within 100, 50 or 20 %"),
    field("rates", Both, Object, Any, Without::Made, "prices of the place"),
    field("rates.electricity_per_kwh", Both, Number, MONEY, Without::Number(0.30, LOCAL), "money per kWh"),
    field("rates.labour_per_hour", Both, Number, MONEY, Without::Number(LABOUR, LOCAL), "money per hour of work"),
    field("rates.horizon_years", Both, Number, Above("0", "100"), Without::Number(5.0, "a usual span for judging money"), "years over which money is counted"),
    field("rates.per_catalog_unit", Both, Number, Above("0", "1e9"), Without::Number(1.0, "the catalog's prices are taken to be in the file's currency"), "money in the file's currency per unit of catalog price"),
    field("rules", Both, Object, Any, Without::Nothing, "rules of the trade that the file changes"),
];

/// Labour rate where none is given, money an hour.
const LABOUR: f64 = 40.0;

/// Names of the motion laws.
const LAWS: &[&str] = &[
    "trapezoid",
    "cycloidal",
    "polynomial_345",
    "polynomial_4567",
    "modified_sine",
    "modified_trapezoid",
    "harmonic",
];

fn readable(tree: Option<&Tree>, kind: Kind) -> Option<(&str, f64)> {
    match tree? {
        Tree::Text(text) => Some((text, parse_as(text, kind).ok()?)),
        _ => None,
    }
}

fn same_as_most(_: &Tree, load: &Tree) -> Option<Tree> {
    let (text, _) = readable(load.get("most"), Kind::Mass)?;
    Some(Tree::Text(text.to_owned()))
}

/// `b = max(travel/4, 100 mm)`.
fn quarter_of_travel(file: &Tree, _: &Tree) -> Option<Tree> {
    let (_, travel_m) = readable(file.get("motion")?.get("travel"), Kind::Length)?;
    let spacing_mm = nine_digits((travel_m * 250.0).clamp(100.0, 1e5));
    Some(Tree::Text(format!("{} mm", exact(spacing_mm))))
}

/// `m r²/3`.
fn uniform_bar(_: &Tree, motion: &Tree) -> Option<Tree> {
    let (_, mass_kg) = readable(motion.get("load")?.get("most"), Kind::Mass)?;
    let (_, radius_m) = readable(motion.get("centre_of_mass")?.get("radius"), Kind::Length)?;
    let inertia = nine_digits(mass_kg * radius_m * radius_m / 3.0);
    Some(Tree::Text(format!("{} kg m2", exact(inertia))))
}

fn thirds(_: &Tree, motion: &Tree) -> Option<Tree> {
    let third = || Tree::Number(1.0 / 3.0);
    (motion.get("law") == Some(&Tree::Text("trapezoid".into())))
        .then(|| Tree::List(vec![third(), third()]))
}

fn labour_rate(file: &Tree, _: &Tree) -> Option<Tree> {
    match file
        .get("rates")
        .and_then(|rates| rates.get("labour_per_hour"))
    {
        None => Some(Tree::Number(LABOUR)),
        Some(Tree::Number(rate)) => Some(Tree::Number(*rate)),
        Some(_) => None,
    }
}

fn centre_height(_: &Tree, base: &Tree) -> Option<Tree> {
    let (text, _) = readable(base.get("centre_height"), Kind::Length)?;
    Some(Tree::Text(text.to_owned()))
}

fn fairly_sure(_: &Tree, goal: &Tree) -> Option<Tree> {
    goal.get("worth").map(|_| Tree::Text("fairly".into()))
}

/// Extra-low voltage is direct as a rule (batteries, supplies).
fn current(_: &Tree, mains: &Tree) -> Option<Tree> {
    let (_, volts) = readable(mains.get("voltage"), Kind::Voltage)?;
    Some(Tree::Text(if volts < 60.0 { "dc" } else { "ac" }.into()))
}

fn phases(_: &Tree, mains: &Tree) -> Option<Tree> {
    let (_, volts) = readable(mains.get("voltage"), Kind::Voltage)?;
    let alternates = mains.get("current") == Some(&Tree::Text("ac".into()));
    alternates.then_some(Tree::Number(if volts >= 380.0 { 3.0 } else { 1.0 }))
}

fn as_the_machine(file: &Tree, _: &Tree) -> Option<Tree> {
    file.get("site")?.get("explosive_atmosphere").cloned()
}
