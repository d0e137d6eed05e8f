//! Parses the arguments, calls the command, prints the problem, chooses the exit status.

use std::process::ExitCode;

use clap::Parser;
use counterpoise::cli::{Arguments, Failure, Outcome, run};

fn main() -> ExitCode {
    match run(&Arguments::parse()) {
        Ok(Outcome::Ranked) => ExitCode::SUCCESS,
        Ok(Outcome::NoneFits) => ExitCode::from(3),
        Err(Failure::Input(problems)) => {
            for problem in problems {
                anstream::eprintln!("{problem}");
            }
            ExitCode::from(2)
        }
        Err(Failure::Internal(message)) => {
            anstream::eprintln!("error: {message}");
            ExitCode::FAILURE
        }
    }
}
