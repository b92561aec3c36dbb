#pragma once

/// For whom a lesson is told, and in which words and units.
namespace ahead::lesson {

enum class Depth {
  viewer,  ///< short: what and why
  pupil,   ///< how to do it
  self     ///< with the numbers
};

enum class Units { mm, in };

enum class Vocabulary { uk, us };

struct Voice {
  Depth depth = Depth::pupil;
  Units units = Units::mm;
  Vocabulary vocabulary = Vocabulary::uk;
};

}  // namespace ahead::lesson
