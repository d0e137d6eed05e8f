//! Parses the arguments, calls the command, prints the problem, chooses the exit status.

use std::process::ExitCode;

use clap::Parser;
use counterpoise::cli::{Arguments, Failure, RunEnd, run, tell};

fn main() -> ExitCode {
    match run(&Arguments::parse()) {
        Ok(RunEnd::Done) => ExitCode::SUCCESS,
        Ok(RunEnd::NoneFits) => ExitCode::from(3),
        Err(Failure::Input(problems)) => {
            for problem in problems {
                tell(&problem.to_string());
            }
            ExitCode::from(2)
        }
        Err(Failure::Internal(message)) => {
            tell(&format!("error: {message}"));
            ExitCode::FAILURE
        }
    }
}
