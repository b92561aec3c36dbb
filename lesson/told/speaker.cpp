#include "lesson/told/speaker.h"

#include <algorithm>
#include <array>
#include <cassert>

#include <fmt/format.h>

#include "lesson/told/glossary.h"
#include "lesson/words/names.h"

namespace ahead::lesson {

struct Speaker::Said {
  std::string text;
  std::vector<Fact> facts;
  std::vector<const Way*> ways;

  void add(Said more) {
    text += more.text;
    std::ranges::move(more.facts, std::back_inserter(facts));
    std::ranges::move(more.ways, std::back_inserter(ways));
  }
};

namespace {

bool holds(const std::string& condition, const Known& known) {
  const bool negated = condition.starts_with('!');
  const std::string_view name = std::string_view(condition).substr(negated ? 1 : 0);
  return (known.conditions.contains(name) || known.facts.contains(name)) != negated;
}

/// Rules that say rules: deeper than this is a circle.
constexpr int deepest = 8;

}  // namespace

std::vector<const Way*> Speaker::allowed(std::string_view name, const Known& known) const {
  const auto found = grammar_.find(name);
  assert(found != grammar_.end());
  std::vector<const Way*> ways;
  for (const Way& way : found->second) {
    const bool all =
        std::ranges::all_of(way.conditions, [&](const std::string& c) { return holds(c, known); });
    if (all) ways.push_back(&way);
  }
  std::ranges::stable_sort(ways, {}, [this](const Way* way) {
    const auto uses = used_.find(way);
    return uses == used_.end() ? 0 : uses->second;
  });
  return ways;
}

std::optional<Speaker::Said> Speaker::rule(std::string_view name, const Known& known,
                                           int deep) const {
  assert(deep < deepest);
  for (const Way* each : allowed(name, known)) {
    if (auto said = way(*each, known, deep + 1)) return said;
  }
  return std::nullopt;
}

std::optional<Speaker::Said> Speaker::way(const Way& way, const Known& known, int deep) const {
  const auto speak = [&](const auto& self,
                         const std::vector<Piece>& pieces) -> std::optional<Said> {
    Said said;
    for (const Piece& piece : pieces) {
      switch (piece.kind) {
        case Piece::Kind::text:
          said.text += in_vocabulary(piece.text, voice_.vocabulary);
          break;
        case Piece::Kind::fact: {
          const auto found = known.facts.find(piece.text);
          if (found == known.facts.end()) return std::nullopt;
          Fact fact = found->second;
          fact.words = in_vocabulary(fact.words, voice_.vocabulary);
          said.text += piece.capital ? capitalised(fact.words) : fact.words;
          said.facts.push_back(std::move(fact));
          break;
        }
        case Piece::Kind::rule: {
          auto more = rule(piece.text, known, deep);
          if (!more) return std::nullopt;
          if (piece.capital) more->text = capitalised(more->text);
          said.add(*std::move(more));
          break;
        }
        case Piece::Kind::option:
          if (auto more = self(self, piece.inside)) said.add(*std::move(more));
          break;
      }
    }
    return said;
  };
  auto said = speak(speak, way.pieces);
  if (said) said->ways.push_back(&way);
  return said;
}

bool Speaker::repeats(const std::string& text) const {
  constexpr int most = 2;
  return std::ranges::any_of(split_sentences(text), [this](const std::string& sentence) {
    const auto found = told_.find(sentence);
    return found != told_.end() && found->second >= most;
  });
}

std::optional<Sentence> Speaker::say(std::string_view about, std::string_view topic,
                                     const Known& known) {
  std::string name = fmt::format("{}.{}", topic, depth_name(voice_.depth));
  if (!grammar_.contains(name)) name = topic;
  if (!grammar_.contains(name)) return std::nullopt;
  for (const Way* each : allowed(name, known)) {
    auto said = way(*each, known, 0);
    if (!said || repeats(said->text)) continue;
    for (const Way* used : said->ways) ++used_[used];
    for (const std::string& sentence : split_sentences(said->text)) ++told_[sentence];
    return Sentence{.key = fmt::format("{}.{}", about, topic),
                    .text = std::move(said->text),
                    .facts = std::move(said->facts)};
  }
  return std::nullopt;
}

std::vector<std::string> split_sentences(std::string_view text) {
  std::vector<std::string> all;
  std::size_t from = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool ends = text[i] == '.' && (i + 1 == text.size() || text[i + 1] == ' ');
    if (!ends) continue;
    all.emplace_back(text.substr(from, i + 1 - from));
    from = i + 2;
  }
  if (from < text.size()) all.emplace_back(text.substr(from));
  return all;
}

std::string_view depth_name(Depth depth) {
  constexpr std::array<std::string_view, 3> names{"viewer", "pupil", "self"};
  return names[static_cast<std::size_t>(depth)];
}

}  // namespace ahead::lesson
