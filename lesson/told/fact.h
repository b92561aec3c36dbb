#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

/// What a sentence may say.
namespace ahead::lesson {

/// A few words and the field of plan.json (a JSON pointer) that they are read off or worked out
/// from.
struct Fact {
  std::string name;  ///< "pace"
  std::string words;
  std::string field;

  friend bool operator==(const Fact&, const Fact&) = default;
};

/// What is known when a sentence is made: facts by name, and conditions that hold without being
/// said ("first", "straight").
struct Known {
  std::map<std::string, Fact, std::less<>> facts;
  std::set<std::string, std::less<>> conditions;

  /// Empty words say nothing: the fact is then not there.
  void say(const std::string& name, std::string words, std::string field) {
    if (!words.empty()) facts[name] = {name, std::move(words), std::move(field)};
  }
  void when(bool holds, const std::string& condition) {
    if (holds) conditions.insert(condition);
  }
};

/// A sentence or two on one topic.
struct Sentence {
  std::string key;  ///< "red-2.strike": the ball or "clearance", and the topic
  std::string text;
  std::vector<Fact> facts;  ///< those that it says, in their order
};

}  // namespace ahead::lesson
