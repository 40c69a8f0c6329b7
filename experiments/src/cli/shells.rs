//! Completions for shells, made from the command line's definition, with the bundled names where a name is wanted.

use clap::builder::PossibleValuesParser;
use clap::{Command, CommandFactory};
use clap_complete::{Generator, aot};

use super::Shell;
use super::typed::Args;
use crate::columns::keys;

/// The completion script of a shell.
pub fn completions(shell: Shell) -> String {
    let names = Names::bundled();
    match shell {
        Shell::Bash => script(aot::Bash, names.as_values()),
        Shell::Zsh => names.beside_files_in_zsh(script(aot::Zsh, names.as_values())),
        Shell::Fish => script(aot::Fish, names.as_values()) + &names.arguments_in_fish(),
        Shell::Elvish => script(aot::Elvish, names.as_values()),
        Shell::Powershell => script(aot::PowerShell, names.as_values()),
    }
}

fn script(shell: impl Generator, mut command: Command) -> String {
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut command, "zoneprobe", &mut script);
    String::from_utf8(script).expect("written from text")
}

/// What may stand where a name is wanted.
struct Names {
    /// Commands that take a file, with the bundled names that they take in its place.
    files: [(&'static str, Vec<String>); 3],
    /// The bundled question's variants.
    variants: Vec<String>,
}

impl Names {
    fn bundled() -> Self {
        let of = |kinds: &[&str]| -> Vec<String> {
            let entries = scenarios::catalog().into_iter();
            entries.filter(|entry| kinds.contains(&entry.kind)).map(|entry| entry.name).collect()
        };
        let question = scenarios::bundled_question();
        let variants = question.map_or_else(|_| Vec::new(), |question| question.variants);
        Self {
            files: [
                ("compare", of(&["experiment"])),
                ("simulate", of(&["scenario"])),
                ("film", of(&["experiment", "scenario"])),
            ],
            variants: variants.into_iter().map(|variant| variant.name).collect(),
        }
    }

    /// The definition in which names are the values of their arguments. Where it is used to read a command line,
    /// they are not: files are allowed, too.
    fn as_values(&self) -> Command {
        let offer = |command: Command, argument: &str, names: Vec<String>| {
            command.mut_arg(argument, |arg| arg.value_parser(PossibleValuesParser::new(names)))
        };
        let columns = || keys().into_iter().map(String::from).collect();
        let all = || scenarios::catalog().into_iter().map(|entry| entry.name).collect();
        let mut program = offer(Args::command(), "rank_by", columns())
            .mut_subcommand("compare", |own| offer(own, "rank_by", columns()))
            .mut_subcommand("show", |own| offer(own, "name", all()))
            .mut_subcommand("film", |own| {
                ["variant", "beside"]
                    .into_iter()
                    .fold(own, |own, flag| offer(own, flag, self.variants.clone()))
            });
        for (command, names) in &self.files {
            program = program.mut_subcommand(command, |own| offer(own, "file", names.clone()));
        }
        program
    }

    /// This shell would offer an argument's values and no files.
    fn beside_files_in_zsh(&self, mut script: String) -> String {
        for (_, names) in &self.files {
            let words = names.join(" ");
            let both = format!(":{{_alternative \"names:bundled:({words})\" \"files:file:_files\"}}'");
            script = script.replace(&format!(":({words})'"), &both);
        }
        script
    }

    /// The generator leaves the arguments out; this shell offers files by itself.
    fn arguments_in_fish(&self) -> String {
        let line = |(command, names): &(&str, Vec<String>)| {
            let words = names.join(" ");
            format!(
                "complete -c zoneprobe -n \"__fish_zoneprobe_using_subcommand {command}\" -a \"{words}\"\n"
            )
        };
        self.files.iter().map(line).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_shell_is_offered_the_commands_and_the_bundled_names() {
        for shell in [Shell::Bash, Shell::Zsh, Shell::Fish, Shell::Elvish, Shell::Powershell] {
            let script = completions(shell);
            for word in ["compare", "catalog", "possessions", "dry-run"] {
                assert!(script.contains(word), "{shell:?} is not offered {word}");
            }
            // The generators for the other two know commands and options only.
            if matches!(shell, Shell::Bash | Shell::Zsh | Shell::Fish) {
                for word in ["routes-against-sink", "sunken-122", "baseline-run", "open_look_rate"] {
                    assert!(script.contains(word), "{shell:?} is not offered {word}");
                }
            }
        }
        assert_eq!(completions(Shell::Zsh).matches("files:file:_files").count(), 3, "files beside names");
    }
}
