//! What can hurt somebody, as data: each hazard with whom it meets, and the words of its caution.
//!
//! A caution is made where its figures are; nothing else has words for it.

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

/// A hazard whose caution has so many figures.
#[derive(Debug)]
pub struct Hazard<const FIGURES: usize> {
    /// `what.how`; wordings of one hazard share it.
    pub id: &'static str,
    /// Whom it meets.
    pub exposed: Exposed,
    words: Words<FIGURES>,
}

impl<const FIGURES: usize> Hazard<FIGURES> {
    /// A hazard in a `const`.
    pub const fn new(id: &'static str, exposed: Exposed, words: &'static str) -> Self {
        Self {
            id,
            exposed,
            words: Words::new(words),
        }
    }
    /// The caution with the figures of one drive.
    pub fn with(&self, figures: [Figure; FIGURES]) -> Caution {
        Caution {
            hazard: self.id,
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
    /// Whom it meets.
    pub exposed: Exposed,
    /// The caution as people read it.
    pub says: Sentence,
}

impl fmt::Display for Caution {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.says.fmt(out)
    }
}

macro_rules! hazards {
    ($($name:ident[$figures:literal] = $id:literal, $exposed:ident, $words:literal;)*) => {
        $(pub(super) const $name: Hazard<$figures> = Hazard::new($id, Exposed::$exposed, $words);)*
    };
}

// Of any drive.
hazards! {
    LETS_GO_BACK[1] = "load.let_go", InTheWay, "When the power fails nothing is asked to hold the load: it is pulled back with up to {}, and nobody may be in its way.";
    LETS_GO_OUT[1] = "load.let_go", InTheWay, "When the power fails nothing is asked to hold the load: it is pulled out with up to {}, and nobody may be in its way.";
    LETS_GO_BOTH[2] = "load.let_go", InTheWay, "When the power fails nothing is asked to hold the load: it is pulled back with up to {} or out with up to {}, by load and place, and nobody may be in its way.";
    OVERRUNS[2] = "load.overruns", InTheWay, "The load overruns {}: by itself it drives the drive with up to {}, which must be held back at every instant.";
    CRUSHES[2] = "load.crushes", InTheWay, "Whoever is between the load and a fixed part is pressed with {} {}: guard the path, or keep people away.";
    CRUSHES_MOVING[3] = "load.crushes", InTheWay, "Whoever is between the load and a fixed part is pressed with {} {}, and the load carries {}: guard the path, or keep people away.";
    JERKS[2] = "load.jerks", TheWork, "The load is not moved gently: it is sped up and slowed down with up to {} m/s² ({} g); what lies loose on it slides.";
    SHORT_LEVER[2] = "hinge.short_lever", ByTheMachine, "At its worst angle the drive has a lever of only {} about the hinge, its pin being {} from it: a small error in the place of a pin changes the force much.";
    ARM_SWINGS[6] = "arm.swings", InTheWay, "The arm swings {} times a second with the most load on; its ramps of {} s last {} swings and practice asks {}: it swings on by up to {} after a stop. From a travel time of {} s the ramps last long enough.";
    NEAR_TIPPING[4] = "machine.tips", ByTheMachine, "The machine is near tipping over its {} edge with the load {} m out: {} of the restoring moment is left, {} is asked.";
    NEAR_TIPPING_SWUNG[4] = "machine.tips", ByTheMachine, "The machine is near tipping over its {} edge with the arm at {} deg: {} of the restoring moment is left, {} is asked.";
    MACHINE_SLIDES[2] = "machine.slides", ByTheMachine, "The machine may slide: it pushes on the floor with {} of its weight, friction bears {}. Bolt it down or move more gently.";
}

// Of counterweights.
hazards! {
    WEIGHT_SWINGS[2] = "counterweight.swings", InTheWay, "The counterweight of {} kg swings on the arm's tail {} m behind the hinge: its path must be guarded, and it must be pinned, not only clamped.";
    WEIGHT_RUNS[2] = "counterweight.runs", InTheWay, "The counterweight of {} kg runs {} m up and down beside the machine: its path and its rope must be guarded over the whole of it, and a broken rope must not let it fall on anyone.";
    ROPE_BREAKS[2] = "counterweight.rope_breaks", UnderTheLoad, "If the rope or its fastening breaks, the load pulls with {} N on a drive that is made for {} N: nobody may be under it without a catch of its own.";
    PULLS_UP[3] = "counterweight.pulls_up", InTheWay, "With the least load of {} kg on, the counterweight pulls it up with {} N when it is let go; with nothing on, it pulls with {} N.";
}

// Of air cylinders.
hazards! {
    ARRIVES_HARD[3] = "load.arrives_hard", TheWork, "The load is not moved gently: it arrives at up to {} m/s and is stopped with some {} m/s² ({} g); what lies loose on it slides.";
    AIR_STAYS[2] = "air.stays", AtTheLines, "Air at {} bar stays in the cylinder after switching off and can push with {}: vent it before anybody reaches in.";
    FIRST_STROKE[0] = "air.first_stroke", InTheWay, "The first stroke after venting meets no air on the exhaust side, so its flow control does not slow it: keep clear until both ends have been reached once.";
    FIRST_STROKE_GENTLE[0] = "air.first_stroke_gentle", InTheWay, "The first stroke after venting meets no air on the exhaust side, so its flow control does not slow it: the soft-start valve brings the pressure up gently; keep clear until both ends have been reached once.";
    TRAPPED_AIR[2] = "air.trapped", UnderTheLoad, "Only trapped air holds the load, against {}: it lets it sink by some {} mm and leaks further with time; nobody may be under it.";
    ROD_LOCK[1] = "rod_lock.alone", UnderTheLoad, "Without air only the rod lock holds the load, against {}; test it at every service.";
}

// Of oil cylinders.
hazards! {
    OIL_STAYS[1] = "oil.stays", AtTheLines, "The oil may stand at {} bar with the power off: let the pressure off before a line is opened.";
    OIL_PUSHES[1] = "oil.pushes", TheWork, "At the relief valve's setting the cylinder pushes with up to {}, whatever the load asks: frame and tool must bear that.";
    COUNTERBALANCE[1] = "counterbalance.alone", UnderTheLoad, "Only the counterbalance valve holds the load, against {}: bolt it straight to the cylinder, since a hose between them that bursts lets the load fall.";
    COUNTERBALANCES[2] = "counterbalance.alone", UnderTheLoad, "Only the counterbalance valves hold the load, against {} back and {} out: bolt each straight to its side of the cylinder, since a hose between them that bursts lets the load go.";
    PRESSURE_SWITCH[2] = "oil.pressure_switch", TheWork, "Set the pressure switch to the {} that the work is to get, and prove it with the gauge: if it fails, the relief valve lets up to {} through to the work.";
    ACCUMULATOR[0] = "oil.accumulator", AtTheLines, "The accumulator keeps oil under pressure with the power off: open its safety block before a line is opened.";
}

// Of screws and electric cylinders.
hazards! {
    THREAD_ALONE[1] = "screw.thread_alone", UnderTheLoad, "The thread holds the load, {}, by friction, judged at a part of it; shaking can loosen it: never rely on it where people are under the load.";
    SCREW_RUNS_BACK[1] = "screw.runs_back", UnderTheLoad, "The screw runs back under its load: without power only the brake holds it, against {}; test the brake at every service.";
    PUSHED_AWAY[1] = "screw.pushed_away", InTheWay, "Nothing pulls at the load at rest, and so no brake is fitted: without power a push of some {} along the travel turns the screw and moves it.";
    CYLINDER_BRAKE[1] = "electric_cylinder.brake_alone", UnderTheLoad, "Without power only the cylinder's brake holds the load, against {}; test it at every service.";
    CYLINDER_THREAD[1] = "electric_cylinder.thread_alone", UnderTheLoad, "The cylinder holds the load, {}, by the friction of its thread; shaking can loosen it: never rely on it where people are under the load.";
}

// Of cranks.
hazards! {
    CRANK_FAST[2] = "crank.fast", AtTheCrank, "The crank turns at {} rpm; {} rpm is easy.";
    CRANK_SPINS[1] = "crank.spins", AtTheCrank, "Only the load brake keeps the crank from spinning under {} N of load when the handle is let go; a ratchet would hold but could not lower. Nobody may be under the load: one tooth or one brake is all that holds it.";
    JACK_ALONE[1] = "jack.alone", UnderTheLoad, "Only the friction of the jack holds {} N of load; it must not be relied on where people are below.";
}
