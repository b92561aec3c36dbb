#pragma once

#include <expected>
#include <map>
#include <string>
#include <string_view>
#include <vector>

/// How sentences are made: a small grammar, kept as text in told/sentences.grammar.
///
///     leave.pupil
///       That leaves {next} to {next pocket}[, {next distance} away].
///       (last) Nothing follows: <only the pot>.
///
/// A rule is a name at the margin; each indented line below is a way to say it. `{name}` says a
/// fact, `{Name}` says it with a capital, `<name>` says another rule, `[...]` is left out when
/// something in it is not known. A line may begin with the conditions under which it may be taken:
/// `(last, !straight)`; a fact's name is the condition that it is known. `#` begins a comment.
namespace ahead::lesson {

struct Piece {
  enum class Kind { text, fact, rule, option };
  Kind kind{};
  std::string text;  ///< the text itself, or the name of the fact or rule
  bool capital = false;
  std::vector<Piece> inside;  ///< of an option
};

struct Way {
  std::vector<std::string> conditions;  ///< with a leading "!" where it must not hold
  std::vector<Piece> pieces;
};

using Grammar = std::map<std::string, std::vector<Way>, std::less<>>;

/// The line that is wrong and why: "line 12: { without }".
[[nodiscard]] std::expected<Grammar, std::string> read_grammar(std::string_view text);

/// The grammar that is compiled into the program.
[[nodiscard]] const Grammar& house_grammar();

}  // namespace ahead::lesson
