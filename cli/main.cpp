#include <cerrno>
#include <cstdio>
#include <cstring>
#include <exception>
#include <string>
#include <string_view>
#include <vector>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>

#include "cli/verbs.h"
#include "formats/input_error.h"

// The only place that prints and the only one that chooses an exit status.
namespace ahead::cli {
namespace {

int status(Exit exit) { return static_cast<int>(exit); }

int complain(const formats::InputError& error) {
  std::fprintf(stderr, "%s\n", formats::one_line(error).c_str());
  return status(Exit::bad_input);
}

/// A full disk or a closed pipe shows when the last bytes are pushed out.
int print(const Answer& answer) {
  const std::string& out = answer.out;
  const bool written = std::fwrite(out.data(), 1, out.size(), stdout) == out.size();
  if (std::fflush(stdout) != 0 || !written) {
    return complain(formats::unwritable_file("standard output", std::strerror(errno)));
  }
  if (!answer.note.empty()) std::fprintf(stderr, "%s\n", answer.note.c_str());
  return status(answer.exit);
}

bool is_verb(std::string_view word) {
  for (const Verb& verb : verbs) {
    if (verb.name == word) return true;
  }
  return false;
}

int run(int argc, char** argv) {
  CLI::App app("Three Ahead: plans, explains and checks clearances in English eight-ball pool.",
               "ahead");
  app.footer(
      "\"ahead VERB --help\" says what a verb does and what its output means.\n"
      "Exit status: 0 done; 1 understood, and the answer is no; 2 bad usage or bad input.");
  app.set_version_flag("--version", "ahead " AHEAD_VERSION);
  app.get_formatter()->label("SUBCOMMAND", "VERB ...");
  app.require_subcommand(1);

  std::vector<Run> runs;
  std::vector<CLI::App*> commands;
  for (const Verb& verb : verbs) {
    CLI::App* command = app.add_subcommand(std::string(verb.name), std::string(verb.summary));
    command->group("Verbs");
    commands.push_back(command);
    runs.push_back(verb.add(*command));
  }

  if (argc < 2) return complain(formats::bad_usage("no verb was given", ""));
  const std::string_view first = argv[1];
  if (!first.starts_with('-') && !is_verb(first)) {
    std::vector<std::string_view> names;
    for (const Verb& verb : verbs) names.push_back(verb.name);
    return complain(formats::unknown_verb(first, names));
  }

  try {
    app.parse(argc, argv);
  } catch (const CLI::Success& success) {
    return app.exit(success);  // --help, --version
  } catch (const CLI::ParseError& error) {
    return complain(formats::bad_usage(error.what(), is_verb(first) ? first : ""));
  }

  for (std::size_t i = 0; i < runs.size(); ++i) {
    if (!commands[i]->parsed()) continue;
    const Outcome outcome = runs[i]();
    return outcome ? print(*outcome) : complain(outcome.error());
  }
  return status(Exit::bad_input);
}

}  // namespace
}  // namespace ahead::cli

int main(int argc, char** argv) {
  try {
    return ahead::cli::run(argc, argv);
  } catch (const std::exception& error) {
    // Nothing of ours throws; the machine may still run out of memory.
    return ahead::cli::complain(ahead::formats::out_of_means(error.what()));
  }
}
