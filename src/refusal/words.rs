//! Words with what they may mean where people are lifted, and a text cut into its clauses.

use std::collections::BTreeMap;
use std::sync::LazyLock;

/// One of those who would be lifted.
pub(super) const ONE: u32 = 1;
/// Several of them.
pub(super) const MANY: u32 = 1 << 1;
/// A group of them, which is also half of names such as "staff kitchen".
pub(super) const GROUP: u32 = 1 << 2;
/// People by their trade, whose goods a hoist lifts as well.
pub(super) const TRADE: u32 = 1 << 3;
/// Whoever speaks, or anybody.
pub(super) const SPEAKER: u32 = 1 << 4;
/// Who is lifted though no noun says so.
pub(super) const SELF: u32 = 1 << 5;
/// What makes people of "the" before it.
pub(super) const AILING: u32 = 1 << 6;
/// Lifting, and what people are lifted by.
pub(super) const LIFT: u32 = 1 << 7;
/// What people do to things: the bare verb.
pub(super) const DO: u32 = 1 << 8;
/// What one person does to things.
pub(super) const DOES: u32 = 1 << 9;
/// Doing it.
pub(super) const DOING: u32 = 1 << 10;
/// What people stand in; with these, trades are riders too.
pub(super) const BEARER: u32 = 1 << 11;
/// May stand between a lift and the lifted without changing the meaning.
pub(super) const BETWEEN: u32 = 1 << 12;
/// Ends the name of who is lifted, so that no noun of another thing follows.
pub(super) const CLOSE: u32 = 1 << 13;
/// Makes the people before it workers, owners or a name of something else, not load.
pub(super) const WORK: u32 = 1 << 14;
/// What is done to things, after "to".
pub(super) const JOB: u32 = 1 << 15;
/// By which nobody is on it.
pub(super) const NOT: u32 = 1 << 16;
/// An article or the like.
pub(super) const ARTICLE: u32 = 1 << 17;
/// Being on it.
pub(super) const RIDES: u32 = 1 << 18;
/// Before what people are on.
pub(super) const ON: u32 = 1 << 19;
/// Where people stand who are not on it.
pub(super) const PLACE: u32 = 1 << 20;
/// May stand between somebody and what they may do.
pub(super) const MAY: u32 = 1 << 21;
/// A number or a unit.
pub(super) const NUMBER: u32 = 1 << 22;
/// Where to, which a purpose may follow.
pub(super) const WHERE: u32 = 1 << 23;
/// Says it all by itself.
pub(super) const ALL: u32 = 1 << 24;
/// Size of a platform rather than the platform.
pub(super) const SIZE: u32 = 1 << 25;
/// May stand between people and what lifts them.
pub(super) const KIND: u32 = 1 << 26;
/// What people lie or sit on.
pub(super) const SEAT: u32 = 1 << 27;
/// Links one thing lifted with another.
pub(super) const LINK: u32 = 1 << 28;
/// Those of the lifted who more often work beside the machine.
pub(super) const HAND: u32 = 1 << 29;

/// Whoever may be lifted.
pub(super) const RIDER: u32 = ONE | MANY | GROUP;

/// The words of each meaning; a word may stand in several.
const MEANINGS: &[(u32, &str)] = &[
    (
        ONE,
        "person passenger wheelchair man woman human patient rider child kid baby toddler infant pupil worker workman \
         operator employee technician painter actor actress performer dancer singer acrobat visitor guest resident \
         pedestrian climber diver skier firefighter mother father mum mom mummy dad daddy grandmother grandfather \
         grandma grandpa granny gran grandad granddad grandparent parent wife husband son daughter sister brother aunt \
         uncle niece nephew grandson granddaughter friend neighbour neighbor adult lady gentleman boy girl teenager \
         senior pensioner user tenant customer client student teacher nurse carer caretaker soldier sailor miner tourist \
         spectator musician artist stuntman swimmer bather invalid amputee occupant casualty victim stretcher inmate \
         prisoner lodger attendant conductor preacher speaker priest bride clown",
    ),
    (
        MANY,
        "persons people passengers wheelchairs men women humans patients riders children kids babies toddlers infants \
         pupils workers workmen operators employees technicians painters actors actresses performers dancers singers \
         acrobats visitors guests residents pedestrians climbers divers skiers firefighters mothers fathers \
         grandmothers grandfathers grandparents parents wives husbands sons daughters sisters brothers aunts uncles \
         grandsons granddaughters friends neighbours neighbors adults ladies gentlemen boys girls teenagers seniors \
         pensioners users tenants customers clients students teachers nurses carers soldiers troops sailors miners \
         tourists spectators musicians artists stuntmen swimmers bathers invalids amputees occupants casualties victims \
         stretchers inmates prisoners lodgers attendants",
    ),
    (
        GROUP,
        "staff crew crews personnel family families public audience team",
    ),
    (
        HAND,
        "worker workers workman workmen operator operators employee employees technician technicians staff crew crews \
         personnel team user users man men person persons people attendant attendants public helper helpers",
    ),
    (
        TRADE,
        "bricklayer bricklayers plumber plumbers electrician electricians carpenter carpenters joiner joiners roofer \
         roofers plasterer plasterers welder welders mason masons mechanic mechanics engineer engineers decorator \
         decorators builder builders installer installers fitter fitters inspector inspectors rigger riggers gardener \
         gardeners cameraman cameramen photographer photographers glazier glaziers cleaner cleaners steeplejack \
         steeplejacks scaffolder scaffolders tiler tilers labourer labourers laborer laborers surveyor surveyors \
         picker pickers stagehand stagehands librarian librarians restorer restorers tradesman tradesmen trades \
         craftsman craftsmen arborist arborists janitor janitors",
    ),
    (
        SPEAKER,
        "i we you he she they me us him them one somebody someone anybody anyone everybody everyone",
    ),
    (
        SELF,
        "me us myself ourselves yourself yourselves himself herself oneself themselves",
    ),
    (
        AILING,
        "disabled elderly injured sick infirm handicapped paralysed paralyzed wounded blind lame",
    ),
    (
        LIFT,
        "lift lifts lifting lifted lifter lifters hoist hoists hoisting hoisted elevator elevators elevate elevates \
         elevating raise raises raising raised raiser winch winches winching lower lowers lowering carry carries \
         carrying carrier carriers transport transports transporting transporter platform platforms basket baskets cage \
         cages cradle cradles gondola gondolas swing swings sling slings harness trapeze ride rides mover",
    ),
    (
        DO,
        "lift hoist raise lower carry winch transport elevate ride swing",
    ),
    (
        DOES,
        "lifts hoists raises lowers carries winches transports elevates swings",
    ),
    (
        DOING,
        "lifting hoisting raising lowering carrying winching transporting elevating",
    ),
    (
        BEARER,
        "lift lifts lifting lifter elevator elevators elevating platform platforms basket baskets cage cages cradle \
         cradles gondola gondolas harness",
    ),
    (
        BETWEEN,
        "a an the of for to up down one two three four five six seven eight nine ten several my our his their your s \
         disabled elderly injured sick infirm handicapped paralysed paralyzed wounded blind lame old young small single \
         heavy frail tall standing seated lying maintenance platform platforms basket cage chair bed couch seat access \
         or and with that which holding holds carry carries carrying lift lifting raise raising take takes taking bring \
         brings bringing move moves moving get gets getting help helps helping deaf pregnant wheelchair m mm cm kg ft in \
         by at least most her room space places seats",
    ),
    (
        CLOSE,
        "to in on up down from with at and or into onto of who that which over between by only too also upstairs \
         downstairs alone safely together home here there inside aboard as if when while per max maximum each either \
         both but so than through out off via during under for is are weighing living using needing going sitting \
         unable able riding no not",
    ),
    (
        WORK,
        "workshop shop operation operated operates operating operate job use uses used made powered can could works \
         work working beside behind nearby near away who loads feeds turns cranks pushes pulls controls watches walks \
         walk doors door cars car coaches coach windows window entrance side proof safe size sized height wheels parts \
         repair turning pushing pulling cranking look looks see sees loading stands own owns bought want wants need needs below under",
    ),
    (
        JOB,
        "load unload lift raise move push pull work use operate turn walk pass feed fill empty hang put place set open \
         close carry crank adjust clean fit mount hold store pick look see admire do lower wind stack tip",
    ),
    (
        NOT,
        "no not never without nobody except excluding cannot keine kein nicht pas sans sin",
    ),
    (ARTICLE, "a an the any my our his her their your every some"),
    (
        RIDES,
        "stand stands standing sit sits sitting ride rides riding lie lies lying climb climbs",
    ),
    (ON, "on in upon inside aboard onto"),
    (
        PLACE,
        "floor ground side front pavement concrete street stool bench workshop shop room kitchen office pit yard middle \
         way path line queue doorway corner rain",
    ),
    (
        MAY,
        "can could may might will would shall should must to is are who that also both often has have",
    ),
    (
        NUMBER,
        "one two three four five six seven eight nine ten both several many few",
    ),
    (WHERE, "to in from at into on between up over onto inside"),
    (
        ALL,
        "stairlift stairlifts manlift manlifts chairlift chairlifts manriding escalator escalators seesaw carousel \
         personen personne personnes personas passagiere passagers pasajeros menschen fahrgäste rollstuhl treppenlift \
         personenaufzug personenlift patientenlifter ascenseur ascensor ascensore",
    ),
    (SIZE, "height width length level depth edge size drawing"),
    (
        KIND,
        "platform access s work working aerial safety home stair transport rescue transfer",
    ),
    (
        SEAT,
        "bed cot stretcher chair couch seat cabin gurney wheelchair car sofa armchair",
    ),
    (LINK, "and or plus with"),
];

static TABLE: LazyLock<BTreeMap<&'static str, u32>> = LazyLock::new(|| {
    let mut table = BTreeMap::new();
    for (meaning, words) in MEANINGS {
        for word in words.split_ascii_whitespace() {
            *table.entry(word).or_insert(0) |= meaning;
        }
    }
    table
});

/// A word of a text.
#[derive(Debug, Clone, Copy)]
pub(super) struct Word<'t> {
    /// In small letters.
    pub text: &'t str,
    /// All that it may mean.
    pub means: u32,
    /// Whether it owns what follows: "worker's", "workers'".
    pub owns: bool,
    /// Whether a hyphen ties it to what follows: "man-high".
    pub tied: bool,
}

impl Word<'_> {
    /// Whether it may mean one of these.
    pub fn is(&self, meanings: u32) -> bool {
        self.means & meanings != 0
    }
}

/// A text's clauses, each some words; points and commas within numbers part nothing.
pub(super) fn clauses(lower: &str) -> Vec<Vec<Word<'_>>> {
    let (mut clauses, mut clause) = (Vec::new(), Vec::new());
    let mut rest = lower;
    while let Some(start) = rest.find(char::is_alphanumeric) {
        let (gap, from) = rest.split_at(start);
        let digit = from.starts_with(|sign: char| sign.is_ascii_digit());
        let number = clause
            .last()
            .is_some_and(|word: &Word| word.text.ends_with(|sign: char| sign.is_ascii_digit()));
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
        clause.push(Word {
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
