#include <algorithm>
#include <array>
#include <charconv>
#include <memory>

#include <fmt/format.h>

#include "coach/read/reading.h"
#include "formats/teacher_words.h"
#include "formats/workbench/json_object.h"
#include "formats/workbench/questions.h"
#include "lesson/house_look.h"
#include "lesson/pack/pack.h"
#include "lesson/pictures.h"
#include "server/long_work.h"
#include "server/plan_view.h"
#include "server/problems.h"
#include "server/workbench.h"

// The lesson: its words and pictures at once, its files as a stream.
namespace ahead::server {
namespace {

using formats::JsonList;
using formats::JsonObject;
using formats::LessonQuestion;

lesson::Edited told(const LessonQuestion& question) {
  return lesson::with_edits(
      lesson::lesson_words(question.plan, coach::read_balls(question.plan.layout),
                           lesson::voice_of(question.settings)),
      question.words);
}

std::string list_text(const std::vector<std::string>& lines) {
  JsonList list;
  for (const std::string& line : lines) list.add_words(line);
  return list.text();
}

std::string group_text(std::string_view heading, const std::vector<lesson::Sentence>& sentences) {
  JsonList keys;
  for (const lesson::Sentence& each : sentences) keys.add_words(each.key);
  return JsonObject().add_words("heading", heading).add("keys", keys.text()).text();
}

Reply words(Workbench& /*workbench*/, const Request& request) {
  const auto question = formats::read_lesson_question(request.body);
  if (!question) return bad_input(question.error());
  const lesson::Edited edited = told(*question);
  JsonList groups;
  groups.add(group_text("The whole clearance", edited.words.clearance));
  for (std::size_t i = 0; i < edited.words.shots.size(); ++i) {
    groups.add(group_text(edited.words.heading_of(question->plan, i), edited.words.shots[i]));
  }
  return json_reply(JsonObject()
                        .add("words", on_one_line(formats::write_teacher_words(edited.file)))
                        .add("groups", groups.text())
                        .add("flagged", list_text(edited.flagged))
                        .add("unused", list_text(edited.unused))
                        .text());
}

Reply picture(Workbench& /*workbench*/, const Request& request) {
  const auto question = formats::read_lesson_question(request.body);
  if (!question) return bad_input(question.error());
  const auto ground =
      question->settings.transparent ? lesson::Ground::clear : lesson::Ground::paper;
  const auto pictures =
      lesson::lesson_pictures(question->plan, told(*question).words, lesson::house_look(),
                              lesson::layers_of(question->settings), ground);
  const auto found = std::ranges::find(pictures, question->picture, &lesson::Picture::name);
  if (found == pictures.end()) return not_found("picture of that name");
  Reply reply = json_reply(found->svg);
  reply.type = "image/svg+xml";
  return reply;
}

std::string address_of(const std::string& id, std::size_t number) {
  return fmt::format("/api/lessons/{}/{}", id, number);
}

std::string file_text(const std::string& id, std::size_t number, const std::string& name,
                      std::size_t bytes) {
  return JsonObject()
      .add_words("name", name)
      .add_number("bytes", static_cast<std::int64_t>(bytes))
      .add_words("href", address_of(id, number))
      .text();
}

/// Makes the files and tells how far each is.
std::string made(Workbench& workbench, const LessonQuestion& question, const Telling& telling) {
  auto folder = workbench.lessons.new_folder();
  if (!folder) throw RefusedWork{bad_input(folder.error())};
  const lesson::Origin origin{.program = "ahead " + workbench.version,
                              .plan = "plan.json",
                              .plan_text = question.plan_text};
  const auto on_step = [&](const std::string& file, double done) {
    telling.settings.on_progress({.stage = file, .fraction = done});
    return !telling.settings.stop.stop_requested();
  };
  const auto pack = lesson::make_pack(question.plan, origin, told(question), question.settings,
                                      (*folder)->path(), on_step);
  if (!pack) throw RefusedWork{bad_input(pack.error())};
  constexpr int digits = 32;
  const std::string id = random_digits(digits);
  JsonList files;
  std::vector<std::string> names;
  for (const formats::OutputFile& file : pack->files) {
    names.push_back(file.name);
    files.add(file_text(id, names.size(), file.name, file.bytes));
  }
  names.emplace_back("manifest.json");
  files.add(file_text(id, names.size(), names.back(), pack->manifest.size()));
  workbench.lessons.keep(id, *std::move(folder), std::move(names));
  return JsonObject().add("files", files.text()).text();
}

Reply lesson(Workbench& workbench, const Request& request) {
  auto question = formats::read_lesson_question(request.body);
  if (!question) return bad_input(question.error());
  auto slot = std::make_shared<Slots::Held>(workbench.plans.take());
  if (!*slot) return busy("other plans and searches");
  auto asked = std::make_shared<const LessonQuestion>(*std::move(question));
  return {.type = "text/event-stream", .events = [&workbench, asked, slot](EventSink& sink) {
            tell_work(
                sink,
                [&workbench, asked](const Telling& telling) {
                  return made(workbench, *asked, telling);
                },
                [slot] { *slot = Slots::Held(); });
          }};
}

std::string_view type_of(std::string_view name) {
  struct Type {
    std::string_view ending;
    std::string_view type;
  };
  static constexpr std::array types{Type{".svg", "image/svg+xml"},
                                    Type{".png", "image/png"},
                                    Type{".gif", "image/gif"},
                                    Type{".pdf", "application/pdf"},
                                    Type{".html", "text/html; charset=utf-8"},
                                    Type{".json", "application/json; charset=utf-8"},
                                    Type{".txt", "text/plain; charset=utf-8"},
                                    Type{".vtt", "text/vtt; charset=utf-8"},
                                    Type{".mp4", "video/mp4"},
                                    Type{".webm", "video/webm"}};
  const auto found =
      std::ranges::find_if(types, [&](const Type& each) { return name.ends_with(each.ending); });
  return found == types.end() ? "application/octet-stream" : found->type;
}

Reply lesson_file(Workbench& workbench, const Request& request) {
  const std::string& number = request.in_path[1];
  std::size_t at = 0;
  const auto [end, error] = std::from_chars(number.data(), number.data() + number.size(), at);
  const bool is_number = error == std::errc() && end == number.data() + number.size();
  auto file = is_number ? workbench.lessons.file(request.in_path[0], at) : std::nullopt;
  if (!file) return not_found("file of a lesson");
  Reply reply = json_reply(std::move(file->bytes));
  reply.type = type_of(file->name);
  reply.headers.emplace_back("Content-Disposition",
                             fmt::format("attachment; filename=\"{}\"", file->name));
  // A page carries its style and script in itself; here it may run neither against our address.
  reply.headers.emplace_back("Content-Security-Policy",
                             "sandbox; default-src 'none'; style-src 'unsafe-inline'");
  return reply;
}

}  // namespace

std::span<const Route> lesson_routes() {
  static constexpr std::array routes{
      Route{"POST", "/api/lesson/words", words}, Route{"POST", "/api/lesson/picture", picture},
      Route{"POST", "/api/lesson", lesson}, Route{"GET", "/api/lessons/{id}/{file}", lesson_file}};
  return routes;
}

}  // namespace ahead::server
