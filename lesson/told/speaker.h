#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "lesson/told/fact.h"
#include "lesson/told/grammar.h"
#include "lesson/told/voice.h"

/// One who tells a whole lesson and takes care not to repeat himself.
///
/// Of the ways that the facts allow, the one used least so far is taken, the first of equals: the
/// same lesson is always told in the same words. A text that was said twice is not said again.
namespace ahead::lesson {

class Speaker {
 public:
  /// `grammar` must outlive it.
  Speaker(const Grammar& grammar, const Voice& voice) : grammar_(grammar), voice_(voice) {}

  /// Says the rule `topic.DEPTH`, or `topic` where all depths share it. Nothing when there is no
  /// such rule, or the facts allow no way to say it.
  [[nodiscard]] std::optional<Sentence> say(std::string_view about, std::string_view topic,
                                            const Known& known);

 private:
  struct Said;
  [[nodiscard]] std::optional<Said> rule(std::string_view name, const Known& known, int deep) const;
  [[nodiscard]] std::optional<Said> way(const Way& way, const Known& known, int deep) const;
  [[nodiscard]] std::vector<const Way*> allowed(std::string_view name, const Known& known) const;
  [[nodiscard]] bool repeats(const std::string& text) const;

  const Grammar& grammar_;
  Voice voice_;
  std::map<const Way*, int> used_;
  std::map<std::string, int> told_;
};

/// The sentences of a text, each with its full stop.
[[nodiscard]] std::vector<std::string> split_sentences(std::string_view text);

/// "viewer", "pupil", "self".
[[nodiscard]] std::string_view depth_name(Depth depth);

}  // namespace ahead::lesson
