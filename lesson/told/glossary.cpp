#include "lesson/told/glossary.h"

#include <array>

#include "lesson/words/names.h"

namespace ahead::lesson {
namespace {

constexpr std::array terms{
    // Spin and strike.
    Term{"a touch of side on the left", "a touch of left english"},
    Term{"a touch of side on the right", "a touch of right english"},
    Term{"half side on the left", "half of full left english"},
    Term{"half side on the right", "half of full right english"},
    Term{"strong side on the left", "strong left english"},
    Term{"strong side on the right", "strong right english"},
    Term{"running side", "running english"},
    Term{"check side", "reverse english"},
    Term{"no side", "no english"},
    Term{"side spin", "english"},
    Term{"stun-run-through", "stun follow"},
    Term{"deep screw", "power draw"},
    Term{"a drag shot", "a drag draw"},
    Term{"a screw", "a draw shot"},
    Term{"screw", "draw"},
    Term{"pace", "speed"},
    // Pockets, cushions and the bed.
    Term{"level with the middle pockets", "level with the side pockets"},
    Term{"baulk and the middle pockets", "the kitchen and the side pockets"},
    Term{"the middle pockets", "the side pockets"},
    Term{"middle-left", "left side pocket"},
    Term{"middle-right", "right side pocket"},
    Term{"baulk cushion", "head rail"},
    Term{"in baulk", "in the kitchen"},
    Term{"baulk", "the kitchen"},
    Term{"cushions", "rails"},
    Term{"cushion", "rail"},
    Term{"spot", "foot spot"},
    Term{"jaws", "points"},
    // Pots and fouls.
    Term{"is potted", "is made"},
    Term{"be potted", "be made"},
    Term{"potted", "made"},
    Term{"potting", "making"},
    Term{"pots", "makes"},
    Term{"the pot", "the shot"},
    Term{"next pot", "next shot"},
    Term{"pot", "make"},
    Term{"in-off", "scratch"},
    Term{"an in-off", "a scratch"},
    Term{"a pot missed thick", "an undercut"},
    Term{"a pot missed thin", "an overcut"},
    Term{"too thick", "undercut"},
    Term{"too thin", "overcut"},
    Term{"visit", "inning"},
    Term{"whole clearance", "whole run-out"},
    Term{"the clearance", "the run-out"},
    Term{"clearance", "run-out"},
    Term{"table is cleared", "table is run out"},
    Term{"clears", "runs out"},
    Term{"clear", "run out"},
    Term{"clearing", "running out"},
    // Balls.
    Term{"the black", "the 8-ball"},
    Term{"black", "8-ball"},
    // Cues and hands.
    Term{"rest", "mechanical bridge"},
    Term{"spider", "tall mechanical bridge"},
    Term{"hand on the cushion", "hand on the rail"},
    // Spelling.
    Term{"centre", "center"},
    Term{"colours", "groups"},
    Term{"colour", "group"},
    Term{"metres", "meters"},
};

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '-'; }

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

/// The words with a small first letter: how the list has them.
bool begins_with(std::string_view words, std::string_view term) {
  return words.size() >= term.size() && lower(words.front()) == term.front() &&
         words.substr(1, term.size() - 1) == term.substr(1) &&
         (words.size() == term.size() || !is_letter(words[term.size()]));
}

const Term* longest_at(std::string_view words) {
  const Term* best = nullptr;
  for (const Term& term : terms) {
    const bool longer = best == nullptr || term.uk.size() > best->uk.size();
    if (longer && begins_with(words, term.uk)) best = &term;
  }
  return best;
}

}  // namespace

std::span<const Term> glossary() { return terms; }

std::string in_vocabulary(std::string_view words, Vocabulary vocabulary) {
  if (vocabulary == Vocabulary::uk) return std::string(words);
  std::string out;
  for (std::size_t i = 0; i < words.size();) {
    const bool starts = i == 0 || !is_letter(words[i - 1]);
    const Term* term = starts ? longest_at(words.substr(i)) : nullptr;
    if (term == nullptr) {
      out += words[i++];
      continue;
    }
    const bool capital = words[i] != term->uk.front();
    out += capital ? capitalised(std::string(term->us)) : std::string(term->us);
    i += term->uk.size();
  }
  return out;
}

}  // namespace ahead::lesson
