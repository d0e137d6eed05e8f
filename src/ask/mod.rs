//! Guided questions: from a vague wish to a requirements file.
//!
//! The questions are data ([`questions`], [`goals`]); the conversation ([`Interview`]) is a thin layer over them and knows
//! none by its subject. What an answer implies, drives and leaves in doubt is worked out by the study's own code. Terminal
//! and files are the caller's: a [`Front`] shows and asks, and every answer is given to be kept.

mod answer;
mod challenge;
mod draft;
mod goals;
mod implies;
mod interview;
mod offer;
mod place;
mod question;
mod questions;
mod reads;
mod sharpen;
mod swing;

pub use draft::Draft;
pub use interview::{Front, Interview, Prompt, Stop};
pub use question::{Choice, Question};
pub use questions::{MOST, parts, question, questions};
pub use sharpen::{Doubt, doubts};
