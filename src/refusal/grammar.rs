//! Whether a clause says that somebody is lifted.
//!
//! Every look from a word goes no further than [`REACH`] words, so that the time is that of the text's length.

use super::words::{
    AILING, ALL, ARTICLE, BEARER, BETWEEN, CLOSE, DO, DOES, DOING, GROUP, HAND, JOB, KIND, LIFT,
    LINK, MANY, MAY, NOT, NUMBER, ON, ONE, PLACE, RIDER, RIDES, SEAT, SELF, SIZE, SPEAKER, TRADE,
    Token, WHERE, WORK, clauses,
};

/// Words that a look goes over at most.
const REACH: usize = 12;
/// How many clauses back a lift stands that "for one person" may belong to.
const CLAUSES_BACK: usize = 4;

/// Pairs of words that say it all.
const PAIRS: &[(&str, &str)] = &[
    ("stair", "lift chair elevator climber"),
    ("stairs", "lift"),
    ("chair", "lift lifts"),
    ("bath", "lift lifts hoist hoists"),
    ("ski", "lift lifts"),
    ("access", "platform platforms"),
    ("disabled", "access"),
    ("bosun", "chair"),
    ("cherry", "picker pickers"),
    ("amusement", "ride rides"),
    ("fairground", "ride rides"),
    ("ferris", "wheel"),
    ("roller", "coaster"),
    ("see", "saw saws"),
    ("monte", "escalier personnes"),
];

type Tokens<'w, 't> = &'w [Token<'t>];

/// Whether a text in small letters speaks of lifting people.
pub(super) fn lifts_people(lower: &str) -> bool {
    let clauses = clauses(lower);
    let within = clauses.iter().any(|clause| {
        (0..clause.len()).any(|at| {
            let (before, rest) = clause.split_at(at);
            rest.split_first()
                .is_some_and(|(word, after)| says_so(before, word, after))
        })
    });
    within || (1..clauses.len()).any(|at| says_apart(&clauses, at))
}

fn says_so(before: Tokens, word: &Token, after: Tokens) -> bool {
    if is_denied(before) {
        return false;
    }
    let next = after.first().map_or("", |next| next.text);
    let pair = |(first, second): &(&str, &str)| {
        *first == word.text && second.split(' ').any(|second| second == next)
    };
    word.is(ALL)
        || PAIRS.iter().any(pair)
        || (word.is(RIDER | SPEAKER | TRADE) && rides(before, after))
        || (word.is(RIDER | TRADE) && lifted_before_the_lift(before, word, after))
        || (word.is(LIFT) && lifts(before, word, after))
        || (word.is(LIFT | SEAT) && has_aboard(after))
}

/// Whether a negation stands directly before, an article or "for" between at most.
fn is_denied(before: Tokens) -> bool {
    match before {
        [.., last] if last.is(NOT) => true,
        [.., not, last] => not.is(NOT) && (last.is(ARTICLE) || last.text == "for"),
        _ => false,
    }
}

/// "Worker stands on", "so I can ride on it", but not "stands on the floor".
fn rides(before: Tokens, after: Tokens) -> bool {
    let mut rest = after.iter().take(REACH).skip_while(|word| word.is(MAY));
    let Some(verb) = rest.next().filter(|word| word.is(RIDES)) else {
        return false;
    };
    if verb.text.starts_with("rid") {
        return true;
    }
    // "The basket in which a painter stands".
    let mut earlier = before
        .iter()
        .rev()
        .skip_while(|word| word.is(ARTICLE | NUMBER));
    let which = earlier.next().is_some_and(|word| word.text == "which");
    let on = rest.next().is_some_and(|word| word.is(ON))
        || (which && earlier.next().is_some_and(|word| word.is(ON)));
    let place = rest.find(|word| !word.is(ARTICLE));
    on && place.is_none_or(|word| !word.is(PLACE))
}

/// "Wheelchair platform lift", but not "two people lift the lid" and not "a man lifts boxes".
fn lifted_before_the_lift(before: Tokens, first: &Token, after: Tokens) -> bool {
    let named = |word: &&Token| word.is(RIDER | TRADE);
    let riders = after.iter().take(REACH + 1).take_while(named).count();
    let rider = after.get(..riders).and_then(<[_]>::last).unwrap_or(first);
    // A platform is a kind of lift only before another word for one.
    let is_kind = |at: &usize| {
        let follows = after.get(at + 1);
        let before_a_lift = follows.is_some_and(|next| next.is(LIFT | KIND));
        let kind = |word: &Token| word.is(KIND) && (!word.is(LIFT) || before_a_lift);
        after.get(*at).is_some_and(kind)
    };
    let kinds = (riders..=REACH).take_while(is_kind).count();
    let [lift, rest @ ..] = after.get(riders + kinds..).unwrap_or_default() else {
        return false;
    };
    if !lift.is(LIFT) || (rider.is(TRADE) && !lift.is(BEARER)) {
        return false;
    }
    !people_lift(before, rider, lift, rest.first())
}

/// Whether the people are those who lift something.
fn people_lift(before: Tokens, rider: &Token, lift: &Token, object: Option<&Token>) -> bool {
    let last_is = |meanings| before.last().is_some_and(|word: &Token| word.is(meanings));
    let (counted, numbered) = (last_is(NUMBER), last_is(NUMBER | ARTICLE));
    let next_is = |meanings| object.is_some_and(|next| next.is(meanings));
    if next_is(SELF) {
        return false;
    }
    let thing = object.is_some() && !next_is(LIFT | CLOSE | NUMBER);
    let by = object.is_some_and(|next| next.text == "by");
    let many = rider.is(MANY | GROUP | TRADE) && !rider.owns;
    if lift.is(DO) && many {
        let noun = object.is_none() || next_is(LIFT);
        return thing || by || (counted && !noun);
    }
    if lift.is(DOES) && !rider.owns {
        return thing || numbered || by;
    }
    if lift.is(DOING) && !rider.owns && (many || numbered) {
        return thing;
    }
    if lift.is(DO) {
        return next_is(ARTICLE);
    }
    lift.text.starts_with("platform") && next_is(SIZE)
}

/// "Hoist for two people", "lift me", but not "hoist operated by one person", nor "lift for children's toys".
fn lifts(before: Tokens, lift: &Token, after: Tokens) -> bool {
    // "Not for lifting people", "never lifts people".
    let verb = lift.is(DO | DOES | DOING);
    let mut earlier = before.iter().rev().map(|word| word.text);
    let denied = earlier.find(|word| !matches!(*word, "for" | "to"));
    if verb && matches!(denied, Some("not" | "never")) {
        return false;
    }
    if let Some((who, rest)) = after.split_first().filter(|(who, _)| verb && who.is(SELF)) {
        // "US" is a country as well.
        return who.text != "us" || rest.first().is_none_or(|next| next.is(CLOSE));
    }
    lifted_after(lift, after) || lifted_beside(after)
}

/// Follows the words after a lift to whom it lifts.
fn lifted_after(lift: &Token, after: Tokens) -> bool {
    let mut rest = after;
    if rest.first().is_some_and(|word| word.is(WHERE)) {
        // "From the cellar to the kitchen for": where to says nothing of whom.
        let purpose = rest.iter().take(REACH).position(|word| word.text == "for");
        let people = rest.iter().take(3).any(|word| word.is(RIDER | DO));
        if let Some(at) = purpose.filter(|_| !people) {
            rest = rest.get(at..).unwrap_or_default();
        }
    }
    let mut purpose = false;
    for steps in 0..REACH {
        let [word, next @ ..] = rest else {
            return false;
        };
        let follows = next.first();
        if word.is(AILING) && follows.is_none_or(|next| next.is(WHERE) || next.text == "only") {
            return true;
        }
        if word.is(RIDER) || (word.is(TRADE) && lift.is(BEARER)) || (purpose && is_me(word)) {
            let number = after.get((after.len() - rest.len()).saturating_sub(1));
            return is_lifted(number, word, next);
        }
        purpose |= word.text == "for";
        if !word.is(BETWEEN | NUMBER | LIFT) || word.owns {
            // One word more may say which people: "hotel guests".
            let which = steps > 0 && purpose && !word.is(CLOSE | WORK) && !word.text.ends_with('s');
            return which
                && follows.is_some_and(|who| {
                    (who.is(RIDER) || (who.is(TRADE) && lift.is(BEARER)))
                        && is_lifted(None, who, next.get(1..).unwrap_or_default())
                });
        }
        rest = next;
    }
    false
}

fn is_me(word: &Token) -> bool {
    word.is(SELF) && word.text != "us"
}

/// "Lift for goods and passengers".
fn lifted_beside(after: Tokens) -> bool {
    let links = |word: &Token| matches!(word.text, "and" | "or" | "plus");
    let Some(link) = after.iter().take(4).position(links) else {
        return false;
    };
    let (goods, beside) = after.split_at(link);
    let at_work = |word: &Token| word.is(WORK | CLOSE) && word.text != "for";
    if goods.iter().any(at_work) {
        return false;
    }
    match past_number(beside.get(1..).unwrap_or_default()) {
        [] => false,
        [who, rest @ ..] => {
            let ends = |next: &Token| next.is(WHERE) && next.text != "to";
            who.is(RIDER) && !who.owns && rest.first().is_none_or(ends)
        }
    }
}

/// What comes after a few articles and numbers.
fn past_number<'w, 't>(words: Tokens<'w, 't>) -> Tokens<'w, 't> {
    let leading = words.iter().take(3);
    let count = leading.take_while(|word| word.is(ARTICLE | NUMBER)).count();
    words.get(count..).unwrap_or_default()
}

/// Whether those named are lifted, by the words that follow: a noun would be what is lifted, a verb what they do.
fn is_lifted(before: Option<&Token>, who: &Token, after: Tokens) -> bool {
    let Some((next, rest)) = after.split_first() else {
        return true;
    };
    if who.owns {
        return next.is(LIFT | RIDER) || matches!(next.text, "chair" | "bed" | "use");
    }
    let counts = before.is_some_and(|word| word.tied && word.is(NUMBER));
    if who.tied || counts {
        return next.is(LIFT);
    }
    if next.is(RIDER | TRADE) && !who.is(GROUP) {
        return is_lifted_chain(next, rest);
    }
    if next.text == "to" {
        return rest.first().is_none_or(|verb| !verb.is(JOB));
    }
    if next.is(WORK) {
        return false;
    }
    if next.is(CLOSE | NUMBER | RIDES | LIFT) {
        return true;
    }
    who.is(MANY) && !next.owns
}

/// The same where another name of people follows: "disabled users", "women potters' kiln".
fn is_lifted_chain(who: &Token, after: Tokens) -> bool {
    match after {
        [next, ..] if who.owns => next.is(LIFT | RIDER),
        [next, ..] => {
            !next.owns && (next.is(CLOSE | NUMBER | RIDES | LIFT) || who.is(MANY)) && !next.is(WORK)
        }
        [] => true,
    }
}

/// "A hospital bed with patient".
fn has_aboard(after: Tokens) -> bool {
    let Some(with) = after
        .iter()
        .take(REACH)
        .position(|word| matches!(word.text, "with" | "including" | "plus" | "incl"))
    else {
        return false;
    };
    let rest = after.get(with + 1..).unwrap_or_default();
    let skip = |word: &&Token| word.is(ARTICLE | NUMBER | AILING);
    let mut rest = rest.iter().take(REACH).skip_while(skip);
    let Some(who) = rest.next().filter(|word| word.is(ONE | MANY | GROUP)) else {
        return false;
    };
    let (next, place) = (rest.next(), rest.find(|word| !word.is(ARTICLE)));
    let on = next.is_some_and(|word| word.is(ON | RIDES))
        && place.is_none_or(|word| !word.is(PLACE | LINK));
    !who.owns && (on || (next.is_none() && !who.is(HAND)))
}

/// "Platform lift, not heavy, for one person": a clause of its own says for whom.
fn says_apart(clauses: &[Vec<Token>], at: usize) -> bool {
    let clause = clauses.get(at).map(Vec::as_slice).unwrap_or_default();
    let named =
        clause.len() > 1 && matches!(past_number(clause), [who] if who.is(RIDER) && !who.owns);
    let purpose = clause.first().is_some_and(|word| word.text == "for");
    if !named && !purpose {
        return false;
    }
    clauses
        .iter()
        .take(at)
        .rev()
        .take(CLAUSES_BACK)
        .filter_map(|earlier| lift_of(earlier))
        .any(|lift| named || lifted_after(lift, clause))
}

/// The lift that a clause speaks of, where no other thing is named after it.
fn lift_of<'w, 't>(clause: Tokens<'w, 't>) -> Option<&'w Token<'t>> {
    let at = clause.iter().rposition(|word| word.is(LIFT))?;
    let next = clause.get(at + 1);
    next.is_none_or(|next| next.is(CLOSE | NUMBER))
        .then(|| clause.get(at))
        .flatten()
}
