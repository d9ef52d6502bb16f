//! The `rushlight` command.

use app::cli::Cli;
use app::commands::{self, Failure};
use app::output;
use clap::Parser;
use sheet::Language;
use std::io::IsTerminal;
use std::process::ExitCode;

/// Lines longer than this are hard to read, however wide the window is.
const WIDTH: usize = 100;

fn main() -> ExitCode {
    let cli = Cli::parse();
    match commands::run(&cli) {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            output::complain(&explain(&failure, cli.language()));
            ExitCode::from(failure.exit_code())
        }
    }
}

/// A failure as text in a language: the shoot file's problems with their snippets, anything else as a sentence.
fn explain(failure: &Failure, language: Language) -> String {
    match failure {
        Failure::BadShoot(problems) => {
            let colours = std::io::stderr().is_terminal() && std::env::var_os("NO_COLOR").is_none();
            problems.render(language, WIDTH, colours)
        }
        Failure::Missing(words) => format!("rushlight: {}\n", words.in_language(language)),
        other => format!("rushlight: {other}\n"),
    }
}
