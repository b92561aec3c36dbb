#include "formats/teacher_words.h"

#include <nlohmann/json.hpp>

#include "formats/document.h"
#include "formats/json_print.h"
#include "formats/values.h"

namespace ahead::formats {
namespace {

using nlohmann::ordered_json;

constexpr std::size_t most_bytes = 5'000;  // of one sentence
constexpr Count any_number{.least = 0, .most = 2'000, .words = "up to 2000 sentences"};
constexpr Count few{.least = 0, .most = 100, .words = "up to 100 facts"};

std::map<std::string, std::string> facts_of(const Field& field) {
  std::map<std::string, std::string> facts;
  for (const Field& each : field.items(few)) {
    const Keys fact(each, {"name", "words"});
    facts[fact.required("name").text()] = fact.required("words").text();
  }
  return facts;
}

TeacherSentence sentence_of(const Field& field) {
  const Keys keys(field, {"key", "text", "facts", "mine", "mine_for"});
  TeacherSentence sentence{.key = keys.required("key").text(),
                           .text = keys.required("text").text(most_bytes),
                           .facts = facts_of(keys.required("facts"))};
  if (const auto mine = keys.optional("mine")) sentence.mine = mine->text(most_bytes);
  if (const auto facts = keys.optional("mine_for")) sentence.mine_for = facts_of(*facts);
  return sentence;
}

std::vector<TeacherSentence> sentences_of(const Field& field) {
  std::vector<TeacherSentence> sentences;
  for (const Field& each : field.items(any_number)) sentences.push_back(sentence_of(each));
  return sentences;
}

ordered_json json_of(const std::map<std::string, std::string>& facts) {
  ordered_json list = ordered_json::array();
  for (const auto& [name, words] : facts) list.push_back({{"name", name}, {"words", words}});
  return list;
}

ordered_json json_of(const std::vector<TeacherSentence>& sentences) {
  ordered_json list = ordered_json::array();
  for (const TeacherSentence& each : sentences) {
    ordered_json json{{"key", each.key}, {"text", each.text}, {"facts", json_of(each.facts)}};
    if (!each.mine.empty()) json["mine"] = each.mine;
    if (!each.mine_for.empty()) json["mine_for"] = json_of(each.mine_for);
    list.push_back(std::move(json));
  }
  return list;
}

}  // namespace

TeacherWords teacher_words_of(const Field& field) {
  expect_format(field, teacher_words_format);
  const Keys keys(field, {"format", "sentences", "unused"});
  return {.sentences = sentences_of(keys.required("sentences")),
          .unused = sentences_of(keys.required("unused"))};
}

ordered_json json_of(const TeacherWords& words) {
  ordered_json json;
  json["format"] = teacher_words_format;
  json["sentences"] = json_of(words.sentences);
  json["unused"] = json_of(words.unused);
  return json;
}

std::expected<TeacherWords, InputError> read_teacher_words(std::string_view text,
                                                           std::string_view file) {
  return read_document<TeacherWords>(text, file, teacher_words_of);
}

std::string write_teacher_words(const TeacherWords& words) { return print_json(json_of(words)); }

}  // namespace ahead::formats
