#pragma once

#include <span>
#include <string>
#include <string_view>

#include "lesson/told/voice.h"

/// The trade's words on the two sides of the ocean.
///
/// Sentences are written in UK words; for the US each term of the list is put into its own. Terms
/// are common usage; where usage varies, the word that both would understand is left alone.
namespace ahead::lesson {

struct Term {
  std::string_view uk;
  std::string_view us;
};

/// Longer terms come before those that they contain.
[[nodiscard]] std::span<const Term> glossary();

/// Whole words only; a capital stays a capital.
[[nodiscard]] std::string in_vocabulary(std::string_view words, Vocabulary vocabulary);

}  // namespace ahead::lesson
