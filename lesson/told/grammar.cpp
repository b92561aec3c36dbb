#include "lesson/told/grammar.h"

#include <cassert>
#include <optional>

#include <fmt/format.h>

#include "lesson/embedded_grammar.h"

namespace ahead::lesson {
namespace {

std::string_view trimmed(std::string_view text) {
  const auto from = text.find_first_not_of(" \t\r");
  if (from == std::string_view::npos) return {};
  return text.substr(from, text.find_last_not_of(" \t\r") - from + 1);
}

/// Reads the pieces of one line from left to right.
class Reader {
 public:
  explicit Reader(std::string_view text) : rest_(text) {}

  /// Up to the end, or to the "]" of an option.
  std::vector<Piece> pieces(bool in_option) {
    std::vector<Piece> all;
    while (!rest_.empty() && wrong_.empty()) {
      const char c = rest_.front();
      if (c == ']') {
        if (!in_option) wrong_ = "] without [";
        return all;
      }
      if (c == '[') {
        rest_.remove_prefix(1);
        all.push_back({.kind = Piece::Kind::option, .inside = pieces(true)});
        if (wrong_.empty() && rest_.empty()) wrong_ = "[ without ]";
        if (wrong_.empty()) rest_.remove_prefix(1);
      } else if (c == '{') {
        all.push_back(named('}', Piece::Kind::fact));
      } else if (c == '<') {
        all.push_back(named('>', Piece::Kind::rule));
      } else if (c == '}' || c == '>') {
        wrong_ = fmt::format("{} without its beginning", c);
      } else {
        const auto until = std::min(rest_.find_first_of("[]{}<>"), rest_.size());
        all.push_back({.kind = Piece::Kind::text, .text = std::string(rest_.substr(0, until))});
        rest_.remove_prefix(until);
      }
    }
    return all;
  }

  [[nodiscard]] const std::string& wrong() const { return wrong_; }

 private:
  Piece named(char closing, Piece::Kind kind) {
    const auto end = rest_.find(closing);
    if (end == std::string_view::npos || end == 1) {
      wrong_ = fmt::format("{} without a name and {}", rest_.front(), closing);
      return {};
    }
    Piece piece{.kind = kind, .text = std::string(rest_.substr(1, end - 1))};
    char& first = piece.text.front();
    if (first >= 'A' && first <= 'Z') {
      piece.capital = true;
      first = static_cast<char>(first - 'A' + 'a');
    }
    rest_.remove_prefix(end + 1);
    return piece;
  }

  std::string_view rest_;
  std::string wrong_;
};

std::expected<Way, std::string> read_way(std::string_view line) {
  Way way;
  if (line.starts_with('(')) {
    const auto end = line.find(')');
    if (end == std::string_view::npos) return std::unexpected("( without )");
    std::string_view list = line.substr(1, end - 1);
    while (!list.empty()) {
      const auto comma = std::min(list.find(','), list.size());
      way.conditions.emplace_back(trimmed(list.substr(0, comma)));
      list.remove_prefix(std::min(comma + 1, list.size()));
    }
    line = trimmed(line.substr(end + 1));
  }
  Reader reader(line);
  way.pieces = reader.pieces(false);
  if (!reader.wrong().empty()) return std::unexpected(reader.wrong());
  return way;
}

}  // namespace

std::expected<Grammar, std::string> read_grammar(std::string_view text) {
  Grammar grammar;
  std::vector<Way>* rule = nullptr;
  for (int number = 1; !text.empty(); ++number) {
    const auto end = std::min(text.find('\n'), text.size());
    const std::string_view line = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    const std::string_view words = trimmed(line);
    if (words.empty() || words.starts_with('#')) continue;
    if (!line.starts_with(' ')) {
      const auto [found, is_new] = grammar.try_emplace(std::string(words));
      if (!is_new) return std::unexpected(fmt::format("line {}: {} comes twice", number, words));
      rule = &found->second;
      continue;
    }
    if (rule == nullptr) return std::unexpected(fmt::format("line {}: no rule yet", number));
    auto way = read_way(words);
    if (!way) return std::unexpected(fmt::format("line {}: {}", number, way.error()));
    rule->push_back(*std::move(way));
  }
  return grammar;
}

const Grammar& house_grammar() {
  static const Grammar grammar = [] {
    const std::optional<std::string_view> text = embedded_grammar("sentences");
    assert(text);
    auto read = read_grammar(*text);
    assert(read);
    return *std::move(read);
  }();
  return grammar;
}

}  // namespace ahead::lesson
