//! Words with what they may mean where people are lifted, and a text cut into its clauses.

use std::collections::BTreeMap;
use std::sync::LazyLock;

/// Each meaning with its words, and a constant of its name; a word may stand in several. A word with + has a plural as well.
macro_rules! meanings {
    ($($(#[$doc:meta])* $name:ident: $words:literal;)*) => {
        #[allow(clippy::upper_case_acronyms, reason = "named as the constants are")]
        enum Bit { $($name),* }
        $($(#[$doc])* pub(super) const $name: u32 = 1 << Bit::$name as u32;)*
        const MEANINGS: &[(u32, &str)] = &[$(($name, $words)),*];
    };
}

meanings! {
    /// One of those who would be lifted.
    ONE: "person+ passenger+ wheelchair+ man+ woman+ human+ patient+ rider+ child kid+ baby+ toddler+ infant+ pupil+ \
         worker+ workman+ operator+ employee+ technician+ painter+ actor+ actress+ performer+ dancer+ singer+ \
         acrobat+ visitor+ guest+ resident+ pedestrian+ climber+ diver+ skier+ firefighter+ mother+ father+ mum mom \
         mummy dad daddy grandmother+ grandfather+ grandma grandpa granny gran grandad granddad grandparent+ parent+ \
         wife husband+ son+ daughter+ sister+ brother+ aunt+ uncle+ niece nephew grandson+ granddaughter+ friend+ \
         neighbour+ neighbor+ adult+ lady+ gentleman+ boy girl+ teenager+ senior+ pensioner+ user+ tenant+ customer+ \
         client+ student+ teacher+ nurse+ carer+ caretaker soldier+ sailor+ miner+ tourist+ spectator+ musician+ \
         artist+ stuntman+ swimmer+ bather+ invalid+ amputee+ occupant+ casualty+ victim+ stretcher+ inmate+ \
         prisoner+ lodger+ attendant+ conductor preacher speaker priest bride clown";
    /// Several of them.
    MANY: "people children wives boys troops";
    /// A group of them, which is also half of names such as "staff kitchen".
    GROUP: "staff crew+ personnel family+ public audience team";
    /// People by their trade, whose goods a hoist lifts as well.
    TRADE: "bricklayer+ plumber+ electrician+ carpenter+ joiner+ roofer+ plasterer+ welder+ mason+ mechanic+ engineer+ \
         decorator+ builder+ installer+ fitter+ inspector+ rigger+ gardener+ cameraman+ photographer+ glazier+ \
         cleaner+ steeplejack+ scaffolder+ tiler+ labourer+ laborer+ surveyor+ picker+ stagehand+ librarian+ \
         restorer+ tradesman+ trades craftsman+ arborist+ janitor+";
    /// Whoever speaks, or anybody.
    SPEAKER: "i we you he she they me us him them one somebody someone anybody anyone everybody everyone";
    /// Who is lifted though no noun says so.
    SELF: "me us myself ourselves yourself yourselves himself herself oneself themselves";
    /// What makes people of "the" before it.
    AILING: "disabled elderly injured sick infirm handicapped paralysed paralyzed wounded blind lame";
    /// Lifting, and what people are lifted by.
    LIFT: "lift lifts lifting lifted lifter lifters hoist hoists hoisting hoisted elevator elevators elevate elevates \
         elevating raise raises raising raised raiser winch winches winching lower lowers lowering carry carries \
         carrying carrier carriers transport transports transporting transporter platform platforms basket baskets \
         cage cages cradle cradles gondola gondolas swing swings sling slings harness trapeze ride rides mover";
    /// What people do to things: the bare verb.
    DO: "lift hoist raise lower carry winch transport elevate ride swing";
    /// What one person does to things.
    DOES: "lifts hoists raises lowers carries winches transports elevates swings";
    /// Doing it.
    DOING: "lifting hoisting raising lowering carrying winching transporting elevating";
    /// What people stand in; with these, trades are riders too.
    BEARER: "lift lifts lifting lifter elevator elevators elevating platform platforms basket baskets cage cages cradle \
         cradles gondola gondolas harness";
    /// May stand between a lift and the lifted without changing the meaning.
    BETWEEN: "a an the of for to up down one two three four five six seven eight nine ten several my our his their your s \
         disabled elderly injured sick infirm handicapped paralysed paralyzed wounded blind lame old young small \
         single heavy frail tall standing seated lying maintenance platform platforms basket cage chair bed couch \
         seat access or and with that which holding holds carry carries carrying lift lifting raise raising take \
         takes taking bring brings bringing move moves moving get gets getting help helps helping deaf pregnant \
         wheelchair m mm cm kg ft in by at least most her room space places seats";
    /// Ends the name of who is lifted, so that no noun of another thing follows.
    CLOSE: "to in on up down from with at and or into onto of who that which over between by only too also upstairs \
         downstairs alone safely together home here there inside aboard as if when while per max maximum each either \
         both but so than through out off via during under for is are weighing living using needing going sitting \
         unable able riding no not";
    /// Makes the people before it workers, owners or a name of something else, not load.
    WORK: "workshop shop operation operated operates operating operate job use uses used made powered can could works \
         work working beside behind nearby near away who loads feeds turns cranks pushes pulls controls watches walks \
         walk doors door cars car coaches coach windows window entrance side proof safe size sized height wheels \
         parts repair turning pushing pulling cranking look looks see sees loading stands own owns bought want wants \
         need needs below under";
    /// What is done to things, after "to".
    JOB: "load unload lift raise move push pull work use operate turn walk pass feed fill empty hang put place set \
         open close carry crank adjust clean fit mount hold store pick look see admire do lower wind stack tip";
    /// By which nobody is on it.
    NOT: "no not never without nobody except excluding cannot keine kein nicht pas sans sin";
    /// An article or the like.
    ARTICLE: "a an the any my our his her their your every some";
    /// Being on it.
    RIDES: "stand stands standing sit sits sitting ride rides riding lie lies lying climb climbs";
    /// Before what people are on.
    ON: "on in upon inside aboard onto";
    /// Where people stand who are not on it.
    PLACE: "floor ground side front pavement concrete street stool bench workshop shop room kitchen office pit yard \
         middle way path line queue doorway corner rain";
    /// May stand between somebody and what they may do.
    MAY: "can could may might will would shall should must to is are who that also both often has have";
    /// A number or a unit.
    NUMBER: "one two three four five six seven eight nine ten both several many few";
    /// Where to, which a purpose may follow.
    WHERE: "to in from at into on between up over onto inside";
    /// Says it all by itself.
    ALL: "stairlift stairlifts manlift manlifts chairlift chairlifts manriding escalator escalators seesaw carousel \
         personen personne personnes personas passagiere passagers pasajeros menschen fahrgäste rollstuhl treppenlift \
         personenaufzug personenlift patientenlifter ascenseur ascensor ascensore";
    /// Size of a platform rather than the platform.
    SIZE: "height width length level depth edge size drawing";
    /// May stand between people and what lifts them.
    KIND: "platform access s work working aerial safety home stair transport rescue transfer";
    /// What people lie or sit on.
    SEAT: "bed cot stretcher chair couch seat cabin gurney wheelchair car sofa armchair";
    /// Links one thing lifted with another.
    LINK: "and or plus with";
    /// Those of the lifted who more often work beside the machine.
    HAND: "worker+ workman+ operator+ employee+ technician+ staff crew+ personnel team user+ man+ person+ people \
         attendant+ public helper+";
}

/// Whoever may be lifted.
pub(super) const RIDER: u32 = ONE | MANY | GROUP;

fn plural(word: &str) -> String {
    if let Some(stem) = word.strip_suffix("man").filter(|stem| *stem != "hu") {
        format!("{stem}men")
    } else if let Some(stem) = word.strip_suffix('y') {
        format!("{stem}ies")
    } else if word.ends_with('s') {
        format!("{word}es")
    } else {
        format!("{word}s")
    }
}

static TABLE: LazyLock<BTreeMap<String, u32>> = LazyLock::new(|| {
    let mut table = BTreeMap::new();
    let mut add = |word: String, meaning: u32| *table.entry(word).or_insert(0) |= meaning;
    for (meaning, words) in MEANINGS {
        for word in words.split_ascii_whitespace() {
            let single = word.trim_end_matches('+');
            if single != word {
                let several = if *meaning == ONE { MANY } else { *meaning };
                add(plural(single), several);
            }
            add(single.to_owned(), *meaning);
        }
    }
    table
});

/// A word of a text.
#[derive(Debug, Clone, Copy)]
pub(super) struct Token<'t> {
    /// In small letters.
    pub text: &'t str,
    /// All that it may mean.
    pub means: u32,
    /// Whether it owns what follows: "worker's", "workers'".
    pub owns: bool,
    /// Whether a hyphen ties it to what follows: "man-high".
    pub tied: bool,
}

impl Token<'_> {
    /// Whether it may mean one of these.
    pub fn is(&self, meanings: u32) -> bool {
        self.means & meanings != 0
    }
}

/// A text's clauses, each some words; points and commas within numbers part nothing.
pub(super) fn clauses(lower: &str) -> Vec<Vec<Token<'_>>> {
    let (mut clauses, mut clause) = (Vec::new(), Vec::new());
    let mut rest = lower;
    while let Some(start) = rest.find(char::is_alphanumeric) {
        let (gap, from) = rest.split_at(start);
        let digit = from.starts_with(|sign: char| sign.is_ascii_digit());
        let number = clause
            .last()
            .is_some_and(|word: &Token| word.text.ends_with(|sign: char| sign.is_ascii_digit()));
        let within_number = digit && number && (gap == "." || gap == ",");
        if gap.contains(['.', ',', ';', ':', '!', '?', '(', ')', '\n']) && !within_number {
            clauses.push(std::mem::take(&mut clause));
        }
        let end = from
            .find(|sign: char| !sign.is_alphanumeric())
            .unwrap_or(from.len());
        let (text, mut after) = from.split_at(end);
        let owner = after
            .strip_prefix('\'')
            .and_then(|after| match after.strip_prefix('s') {
                Some(after) if !after.starts_with(char::is_alphanumeric) => Some(after),
                _ => text.ends_with('s').then_some(after),
            });
        if let Some(past) = owner {
            after = past;
        }
        let tied = after
            .strip_prefix('-')
            .is_some_and(|after| after.starts_with(char::is_alphanumeric));
        clause.push(Token {
            text,
            means: meaning(text),
            owns: owner.is_some(),
            tied,
        });
        rest = after;
    }
    clauses.push(clause);
    clauses
}

fn meaning(text: &str) -> u32 {
    let known = TABLE.get(text).copied().unwrap_or(0);
    let number = text.starts_with(|sign: char| sign.is_ascii_digit());
    // German puts its words together.
    let all = text.contains("personen") || text.contains("rollstuhl");
    known | if number { NUMBER } else { 0 } | if all { ALL } else { 0 }
}
