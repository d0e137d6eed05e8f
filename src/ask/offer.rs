//! The offer to put right what is most in doubt, before it is ranked.

use super::interview::Prompt;
use super::question::{Choice, choice};
use super::sharpen::Doubt;

/// The choices of the offer.
pub(super) fn ways(doubts: &[Doubt]) -> Vec<Choice> {
    let mut ways = vec![choice("rank", "rank it as it is")];
    ways.extend(
        doubts
            .iter()
            .map(|doubt| choice(doubt.question.id, doubt.question.asks)),
    );
    if doubts.len() > 1 {
        ways.push(choice("both", "both"));
    }
    ways
}

/// The offer itself.
pub(super) fn offer(doubts: &[Doubt]) -> Prompt {
    let count = if doubts.len() == 1 {
        "One answer in doubt moves"
    } else {
        "Two answers in doubt move"
    };
    Prompt {
        id: "offer",
        heading: format!("{count} the first place most. Put one right before it is ranked?"),
        help: doubts.iter().map(|doubt| doubt.says.clone()).collect(),
        default: Some("rank".into()),
        choices: ways(doubts),
        many: false,
        open: false,
    }
}
