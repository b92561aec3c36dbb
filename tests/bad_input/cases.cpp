#include "tests/bad_input/cases.h"

#include <algorithm>
#include <filesystem>
#include <stdexcept>

#include "formats/layout.h"
#include "formats/plan.h"
#include "formats/player.h"
#include "formats/strike.h"
#include "formats/table.h"
#include "formats/teacher_words.h"
#include "formats/trace.h"
#include "tests/support/text_of.h"

namespace ahead::test {
namespace {

template <class Result>
std::optional<formats::InputError> error_of(const Result& result) {
  if (result) return std::nullopt;
  return result.error();
}

}  // namespace

std::vector<BadInput> bad_inputs() {
  std::vector<BadInput> cases;
  const std::filesystem::path root = std::filesystem::path(AHEAD_SOURCE_DIR) / "tests/bad_input";
  for (const auto& entry : std::filesystem::directory_iterator(root)) {
    if (!entry.is_directory()) continue;
    const std::string name = entry.path().filename().string();
    std::string expected = text_of(entry.path() / "expected.txt");
    while (expected.ends_with('\n')) expected.pop_back();
    cases.push_back({.name = name,
                     .kind = name.substr(0, name.find('-')),
                     .text = text_of(entry.path() / "input.json"),
                     .expected = expected});
  }
  std::ranges::sort(cases, {}, &BadInput::name);
  return cases;
}

std::optional<formats::InputError> refusal(const std::string& kind, const std::string& text) {
  const std::string file = "input.json";
  if (kind == "layout") return error_of(formats::read_layout(text, file));
  if (kind == "strike") return error_of(formats::read_strike(text, file, engine::Cue{}));
  if (kind == "player") return error_of(formats::read_player(text, file));
  if (kind == "plan") return error_of(formats::read_plan(text, file));
  if (kind == "table") return error_of(formats::read_table(text, file));
  if (kind == "trace") return error_of(formats::read_trace(text, file));
  if (kind == "words") return error_of(formats::read_teacher_words(text, file));
  throw std::invalid_argument("no reader for " + kind);
}

}  // namespace ahead::test
