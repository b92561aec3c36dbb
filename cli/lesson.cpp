#include <array>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "cli/paragraph.h"
#include "cli/verbs.h"
#include "coach/read/reading.h"
#include "formats/plan.h"
#include "formats/teacher_words.h"
#include "formats/text_file.h"
#include "lesson/told/edits.h"
#include "lesson/told/lesson_words.h"

namespace ahead::cli {
namespace {

struct Options {
  Common common;
  std::string plan;
  std::string out;
  std::vector<std::string> what;
  lesson::Voice voice;
};

using Failure = std::optional<formats::InputError>;

std::string words_file(const lesson::LessonWords& words) {
  std::string out;
  for (const lesson::Sentence& each : words.clearance) out += paragraph(each.text, 0);
  for (std::size_t i = 0; i < words.shots.size(); ++i) {
    out += fmt::format("\nShot {}\n", i + 1);
    for (const lesson::Sentence& each : words.shots[i]) out += paragraph(each.text, 3);
  }
  return out;
}

Outcome run(const Options& options) {
  const auto text = formats::read_file(options.plan);
  if (!text) return std::unexpected(text.error());
  const auto plan = formats::read_plan(*text, options.plan);
  if (!plan) return std::unexpected(plan.error());
  const std::filesystem::path folder = options.out;
  if (auto error = formats::make_folder(folder)) return std::unexpected(*error);
  const std::filesystem::path edits = folder / "words.json";
  formats::TeacherWords before;
  if (std::filesystem::exists(edits)) {
    const auto kept = formats::read_file(edits);
    if (!kept) return std::unexpected(kept.error());
    auto read = formats::read_teacher_words(*kept, edits.string());
    if (!read) return std::unexpected(read.error());
    before = *std::move(read);
  }
  const coach::Reading reading = coach::read_table(plan->layout, plan->player, plan->seed);
  const lesson::Edited told =
      lesson::with_edits(lesson::lesson_words(*plan, reading, options.voice), before);
  if (auto error = formats::write_file(edits, formats::write_teacher_words(told.file))) {
    return std::unexpected(*error);
  }
  const std::string words = words_file(told.words);
  if (auto error = formats::write_file(folder / "words.txt", words)) return std::unexpected(*error);
  return Answer{.out = words};
}

}  // namespace

Run lesson_verb(CLI::App& app) {
  auto options = std::make_shared<Options>();
  app.add_option("PLAN", options->plan, "Plan file, as `ahead plan --out` writes it")->required();
  app.add_option("--out", options->out, "Folder for the lesson")->required()->type_name("DIR");
  app.add_option("--for", options->voice.depth, "Who reads it")
      ->transform(CLI::CheckedTransformer(
          std::map<std::string, lesson::Depth>{{"viewer", lesson::Depth::viewer},
                                               {"pupil", lesson::Depth::pupil},
                                               {"self", lesson::Depth::self}}));
  app.add_option("--units", options->voice.units, "")
      ->transform(CLI::CheckedTransformer(
          std::map<std::string, lesson::Units>{{"mm", lesson::Units::mm}, {"in", lesson::Units::in}}));
  app.add_option("--words", options->voice.vocabulary, "")
      ->transform(CLI::CheckedTransformer(std::map<std::string, lesson::Vocabulary>{
          {"uk", lesson::Vocabulary::uk}, {"us", lesson::Vocabulary::us}}));
  add_common(app, options->common);
  return [options] { return run(*options); };
}

}  // namespace ahead::cli
