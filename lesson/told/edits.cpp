#include "lesson/told/edits.h"

#include <map>
#include <set>

namespace ahead::lesson {
namespace {

using formats::TeacherSentence;

std::map<std::string, std::string> facts_of(const Sentence& sentence) {
  std::map<std::string, std::string> facts;
  for (const Fact& fact : sentence.facts) facts[fact.name] = fact.words;
  return facts;
}

}  // namespace

Edited with_edits(LessonWords words, const formats::TeacherWords& before) {
  std::map<std::string_view, const TeacherSentence*> edited;
  for (const auto* list : {&before.unused, &before.sentences}) {
    for (const TeacherSentence& each : *list) {
      if (!each.mine.empty()) edited[each.key] = &each;
    }
  }

  Edited result;
  std::set<std::string_view> said;
  const auto settle = [&](Sentence& sentence) {
    TeacherSentence entry{.key = sentence.key, .text = sentence.text, .facts = facts_of(sentence)};
    if (const auto found = edited.find(sentence.key); found != edited.end()) {
      const TeacherSentence& old = *found->second;
      said.insert(found->first);
      entry.mine = old.mine;
      const auto& written_for = old.mine_for.empty() ? old.facts : old.mine_for;
      if (written_for == entry.facts) {
        sentence.text = old.mine;
      } else {
        entry.mine_for = written_for;
        result.flagged.push_back(sentence.key);
      }
    }
    result.file.sentences.push_back(std::move(entry));
  };
  for (Sentence& each : words.clearance) settle(each);
  for (std::vector<Sentence>& shot : words.shots) {
    for (Sentence& each : shot) settle(each);
  }
  for (const auto& [key, old] : edited) {
    if (said.contains(key)) continue;
    result.file.unused.push_back(*old);
    result.unused.emplace_back(key);
  }
  result.words = std::move(words);
  return result;
}

}  // namespace ahead::lesson
