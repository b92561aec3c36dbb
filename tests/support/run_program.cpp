#include "tests/support/run_program.h"

#include <cstdlib>

#include <sys/wait.h>

#include "tests/support/temporary_folder.h"
#include "tests/support/text_of.h"

namespace ahead::test {
namespace {

std::string in_shell_quotes(const std::string& text) {
  std::string quoted = "'";
  for (const char c : text) quoted += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return quoted + "'";
}

}  // namespace

Ran run_program(const std::vector<std::string>& arguments, const std::string& out_path) {
  const TemporaryFolder folder;
  const std::string out = out_path.empty() ? (folder / "out").string() : out_path;
  std::string command = in_shell_quotes(AHEAD_PROGRAM);
  for (const std::string& argument : arguments) command += ' ' + in_shell_quotes(argument);
  command += " >" + in_shell_quotes(out) + " 2>" + in_shell_quotes((folder / "err").string());
  const int status = std::system(command.c_str());
  return {.status = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status),
          .out = out_path.empty() ? text_of(out) : "",
          .err = text_of(folder / "err")};
}

}  // namespace ahead::test
