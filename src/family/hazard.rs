//! What can hurt somebody, as data: each hazard with its group, whom it meets, and the words of its caution.
//!
//! A caution is made where its figures are; nothing else has words for it. Standards are named with their subject and without a
//! clause. The rows stand in the order in which they are read: worst first, and within a group what goes for the job before what
//! goes for a drive.

use core::fmt;

use super::sentence::{Figure, Sentence, Words};

/// Who or what is hurt.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Exposed {
    /// Whoever is in the way of what moves.
    InTheWay,
    /// Whoever is under the load.
    UnderTheLoad,
    /// Whoever turns the crank.
    AtTheCrank,
    /// Whoever opens a line or reaches into the machine when it is switched off.
    AtTheLines,
    /// Whoever stands by the machine.
    ByTheMachine,
    /// What the drive works on, and what lies on its load.
    TheWork,
}

/// What hazards have in common; each group is one line under a study.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Group {
    /// The load goes where it wants: what holds it, and what must beside.
    LetGo,
    /// Whoever is in the way while it moves.
    InItsWay,
    /// It starts when nobody thinks it will.
    Start,
    /// What pushes with everything switched off.
    Stored,
    /// The machine's own masses and its stand.
    Stand,
    /// Electricity, oil, heat, noise, and what the place adds.
    Around,
}

impl Group {
    /// Every group, worst first.
    pub const ALL: [Group; 6] = [
        Group::LetGo,
        Group::InItsWay,
        Group::Start,
        Group::Stored,
        Group::Stand,
        Group::Around,
    ];

    /// What its line begins with.
    pub fn title(self) -> &'static str {
        match self {
            Group::LetGo => "Letting go",
            Group::InItsWay => "In its way",
            Group::Start => "Unexpected start",
            Group::Stored => "Stored energy",
            Group::Stand => "Weights and stand",
            Group::Around => "Around it",
        }
    }
}

/// A hazard whose caution has so many figures.
#[derive(Debug)]
pub struct Hazard<const FIGURES: usize> {
    /// `what.how`; wordings of one hazard share it.
    pub id: &'static str,
    /// The line that it stands in.
    pub group: Group,
    /// Whom it meets.
    pub exposed: Exposed,
    words: Words<FIGURES>,
}

impl<const FIGURES: usize> Hazard<FIGURES> {
    /// A hazard in a `const`.
    pub const fn new(
        id: &'static str,
        (group, exposed): (Group, Exposed),
        words: &'static str,
    ) -> Self {
        Self {
            id,
            group,
            exposed,
            words: Words::new(words),
        }
    }
    /// The caution with the figures of one drive.
    pub fn with(&self, figures: [Figure; FIGURES]) -> Caution {
        Caution {
            hazard: self.id,
            group: self.group,
            exposed: self.exposed,
            says: self.words.with(figures),
        }
    }
}

/// What can hurt somebody with one drive.
#[derive(Debug, Clone, PartialEq)]
pub struct Caution {
    /// Id of the hazard.
    pub hazard: &'static str,
    /// The line that it stands in.
    pub group: Group,
    /// Whom it meets.
    pub exposed: Exposed,
    /// The caution as people read it.
    pub says: Sentence,
}

impl Caution {
    /// Its place among all cautions: worst first.
    pub fn place(&self) -> (Group, usize) {
        let row = HAZARDS.iter().position(|id| *id == self.hazard);
        (self.group, row.unwrap_or(HAZARDS.len()))
    }
}

impl fmt::Display for Caution {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.says.fmt(out)
    }
}

macro_rules! hazards {
    ($($name:ident[$figures:literal] = $id:literal, $group:ident, $exposed:ident, $words:literal;)*) => {
        $(pub(super) const $name: Hazard<$figures> = Hazard::new($id, (Group::$group, Exposed::$exposed), $words);)*
        /// The id of every row of the table, in its order.
        pub const HAZARDS: &[&str] = &[$($id),*];
    };
}

hazards! {
    // It lets go. What goes for the job comes first.
    FALLS[3] = "load.falls", LetGo, UnderTheLoad, "The load falls if what holds it lets go: {} over {}, {}. Nobody may be under it.";
    RUNS_DOWN[3] = "load.falls", LetGo, InTheWay, "The load runs downhill if what holds it lets go: {} over {}, {}. Nobody may be below it.";
    DROPS[2] = "load.drops", LetGo, InTheWay, "Let go, the load drops or swings back: {}, {}.";
    PUSHED[1] = "load.pushed", LetGo, InTheWay, "If what holds the load lets go, a spring, the wind or the work pushes it with up to {}. Pin or block it before a hand goes in.";
    LETS_GO_BACK[1] = "load.let_go", LetGo, InTheWay, "When the power fails nothing holds it: it goes back, pushed with up to {}.";
    LETS_GO_OUT[1] = "load.let_go", LetGo, InTheWay, "When the power fails nothing holds it: it goes out, pushed with up to {}.";
    LETS_GO_BOTH[2] = "load.let_go", LetGo, InTheWay, "When the power fails nothing holds it: it goes back, pushed with up to {}, or out with up to {}, by load and place.";
    TRAPPED_AIR[2] = "air.trapped", LetGo, UnderTheLoad, "Only trapped air holds it, against {}: it gives about {} mm at first and more as it leaks. Alone it is not enough where a hand can be beneath.";
    ROD_LOCK[1] = "rod_lock.alone", LetGo, UnderTheLoad, "Only the rod lock holds it, against {}.";
    COUNTERBALANCE[1] = "counterbalance.alone", LetGo, UnderTheLoad, "Only the counterbalance valve holds it, against {}: bolt it to the cylinder's port, for a hose between them that bursts lets the load go.";
    COUNTERBALANCES[2] = "counterbalance.alone", LetGo, UnderTheLoad, "Only the counterbalance valves hold it, against {} back and {} out: bolt each to its port of the cylinder, for a hose between them that bursts lets the load go.";
    SCREW_RUNS_BACK[1] = "screw.runs_back", LetGo, UnderTheLoad, "The screw runs back: only the brake holds it, against {}.";
    CYLINDER_BRAKE[1] = "electric_cylinder.brake_alone", LetGo, UnderTheLoad, "Only the cylinder's brake holds it, against {}.";
    THREAD_ALONE[1] = "screw.thread_alone", LetGo, UnderTheLoad, "Only the friction of the thread holds it, against {}: shaking can loosen it.";
    CYLINDER_THREAD[1] = "electric_cylinder.thread_alone", LetGo, UnderTheLoad, "Only the friction of the cylinder's thread holds it, against {}: shaking can loosen it.";
    CRANK_SPINS[1] = "crank.spins", LetGo, AtTheCrank, "Only the load brake keeps the handle from spinning back, against {}: stand clear of its circle. A ratchet in its place could not lower.";
    JACK_ALONE[1] = "jack.alone", LetGo, UnderTheLoad, "Only the friction of the jack holds it, against {}: shaking can loosen it.";
    ROPE_BREAKS[2] = "counterweight.rope_breaks", LetGo, UnderTheLoad, "If the rope or its anchor breaks, the counterweight falls and {} comes on a drive made for {}. Have rope and tackle inspected as local rules require.";
    PULLS_UP[3] = "counterweight.pulls_up", LetGo, InTheWay, "With the least load of {} on, the counterweight pulls it up with {} when let go; with nothing on, with {}.";
    ONE_MEANS[0] = "load.one_means", LetGo, UnderTheLoad, "One means alone holds it. Have a second designed that does not depend on the drive (prop, locking pin or catch) and set it before anybody reaches in or under. This tool sizes none. Test the first at every service.";
    WIND[0] = "load.wind", LetGo, InTheWay, "Only the wind or push that the file states is counted: in more, stop and latch it.";

    // It moves.
    TOOL[1] = "tool.closes", InItsWay, InTheWay, "The tool closes on the work with {}. If work is laid in by hand it needs two-hand control, a closed interlocked guard, or a light curtain at its distance (ISO 13855, speed of approach), and one stroke for each command. The parts list has none of these.";
    TOOL_STAYS[1] = "tool.stays", InItsWay, InTheWay, "Its force of {} stays on when the power fails: whoever is caught stays caught, so plan how to open it by hand.";
    CRUSHES[2] = "load.crushes", InItsWay, InTheWay, "The load presses whoever is between it and something fixed with {} {}.";
    CRUSHES_SWUNG[3] = "load.crushes", InItsWay, InTheWay, "The load presses whoever is between it and something fixed with {} {} at its centre of mass, and up to {} 100 mm from the hinge.";
    STRIKES[1] = "load.strikes", InItsWay, InTheWay, "In full motion the load strikes with {}.";
    GUARD[0] = "path.guard", InItsWay, InTheWay, "Above 150 N guard its path (ISO 13857, safety distances), or fit a sensing edge, a light barrier or hold-to-run control (EN 12453, power-operated gates). The parts list has only a plain guard.";
    NIPS[1] = "nip.points", InItsWay, InTheWay, "Cover {}: fingers and sleeves are drawn in.";
    PRESSURE_SWITCH[2] = "oil.pressure_switch", InItsWay, TheWork, "Set the pressure switch for {} and prove it on the gauge. If it fails, the relief valve lets up to {} through.";
    OIL_PUSHES[1] = "oil.pushes", InItsWay, TheWork, "At the relief valve's setting it pushes with up to {}: frame and tool must withstand that.";
    JERKS[2] = "load.jerks", InItsWay, TheWork, "The load speeds up and slows down with {} m/s² ({} g): what lies loose on it slides.";
    ARRIVES_HARD[3] = "load.arrives_hard", InItsWay, TheWork, "The load arrives at up to {} m/s and is stopped with about {} m/s² ({} g): what lies loose on it slides.";

    // It starts.
    STARTS[0] = "drive.starts", Start, InTheWay, "When power or air returns the drive must not start by itself (ISO 14118, unexpected start-up). Fit an emergency stop (ISO 13850) and a main switch or dump valve that locks off, and lock it off before anybody reaches in or clears a jam.";
    FIRST_STROKE[0] = "air.first_stroke", Start, InTheWay, "The first stroke after venting is not slowed by the flow controls: keep clear until both ends have been reached.";
    FIRST_STROKE_GENTLE[0] = "air.first_stroke_gentle", Start, InTheWay, "The first stroke after venting is slowed by the soft-start valve alone: keep clear until both ends have been reached.";

    // It stores.
    BLOCK_LOAD[0] = "energy.block", Stored, AtTheLines, "First block, prop or lower the load, then touch what holds it: brake, thread, valve, line, rope or pin.";
    PIN_LOAD[0] = "energy.block", Stored, AtTheLines, "First pin or block the load, then touch what holds it: brake, thread, valve, line or pin.";
    BLOCK_WEIGHT[0] = "counterweight.block", Stored, AtTheLines, "Block the counterweight as well.";
    ZERO_FIRST[0] = "energy.zero", Stored, AtTheLines, "Only then shut off, vent or relieve, and see zero on the gauge before reaching in or opening a line.";
    ZERO[0] = "energy.zero", Stored, AtTheLines, "Keep out of its path, shut off, vent or relieve, and see zero on the gauge before reaching in or opening a line.";
    AIR_STAYS[2] = "air.stays", Stored, AtTheLines, "Air at {} bar stays in the cylinder with the power off and can push with {}; a tube that comes off whips (ISO 4414, pneumatics).";
    OIL_STAYS[1] = "oil.stays", Stored, AtTheLines, "Oil may stand at {} bar with the power off.";
    ACCUMULATOR[0] = "oil.accumulator", Stored, AtTheLines, "The accumulator stays charged: drain it through its safety block and see zero on the gauge.";
    VESSEL[1] = "pressure.vessel", Stored, ByTheMachine, "Have the {}, a pressure vessel, inspected as local rules require.";

    // It stands.
    WEIGHT_RUNS[2] = "counterweight.runs", Stand, InTheWay, "The counterweight of {} kg runs {} m up and down: guard its whole path, its rope and its sheaves.";
    WEIGHT_SWINGS[2] = "counterweight.swings", Stand, InTheWay, "The counterweight of {} kg swings on the arm's tail {} m behind the hinge: guard its path, and pin it, not only clamp it.";
    NEAR_TIPPING[4] = "machine.tips", Stand, ByTheMachine, "The machine is near tipping over its {} edge with the load {} m out: {} of the restoring moment is left, {} is required.";
    NEAR_TIPPING_SWUNG[4] = "machine.tips", Stand, ByTheMachine, "The machine is near tipping over its {} edge with the arm at {} deg: {} of the restoring moment is left, {} is required.";
    STANDS_FREE[0] = "machine.stands_free", Stand, ByTheMachine, "Only its own forces on level ground are counted: against a push, a slope, wind or a caught cable bolt it down or add ballast, and lower the load before it is moved.";
    MACHINE_SLIDES[2] = "machine.slides", Stand, ByTheMachine, "The machine may slide: it pushes on the floor with {} of its weight, friction withstands {}. Bolt it down or move more gently.";
    ARM_SWINGS[6] = "arm.swings", Stand, InTheWay, "The arm swings {} times a second with the most load on; its ramps of {} s last {} swings and practice requires {}: it swings on by up to {} after a stop. From a travel time of {} s the ramps last long enough.";

    // It stands there.
    EXPLOSIVE[0] = "site.explosive", Around, ByTheMachine, "The atmosphere may explode. The parts are invented, so nothing here is proved for it. Zones, static charge, rubbing sparks and hot surfaces call for certified parts and licensed practice; compressor, oil unit and cabinet stand outside the zone.";
    ELECTRIC[1] = "electricity.shock", Around, ByTheMachine, "Work on {} is for a licensed electrician (IEC 60204-1, electrical equipment of machines).";
    WET[0] = "electricity.wet", Around, ByTheMachine, "The place is wet: protect against leakage current, or use extra-low voltage.";
    OIL_JET[0] = "oil.jet", Around, ByTheMachine, "A pinhole jet of oil goes through skin and a burst hose whips (ISO 4413, hydraulics): cover hoses, change them by date, never feel for a leak.";
    HOT_OIL[1] = "oil.hot", Around, ByTheMachine, "Oil, motor and pipes may reach {}.";
    COLD_PLACE[1] = "site.cold", Around, InTheWay, "The place is down to {}: what is frozen shut jumps when it comes free, and water in air lines freezes.";
    HOT_PLACE[1] = "site.hot", Around, ByTheMachine, "The place is at up to {}: what stands there burns whoever touches it.";
    NOISE[1] = "noise", Around, ByTheMachine, "At {} dB(A) in 1 m it needs silencers, or ear protection.";
    WASHED[0] = "site.washed", Around, TheWork, "Where food is near: food-grade oil and grease, exhaust air led away, no gaps that hold dirt.";
}
