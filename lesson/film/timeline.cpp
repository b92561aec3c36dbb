#include "lesson/film/timeline.h"

#include <algorithm>
#include <cmath>
#include <initializer_list>

namespace ahead::lesson {
namespace {

constexpr double step_s = 0.1;  // three frames
constexpr double glance_s = 1.5;

double on_a_step(double duration_s) { return step_s * std::ceil(duration_s / step_s - 1e-9); }

class Filling {
 public:
  void add(Beat beat, std::size_t shot, double duration_s, std::string words) {
    // Counted in steps, so that sums do not drift off the frames.
    steps_ += std::lround(on_a_step(duration_s) / step_s);
    line_.parts.push_back({.beat = beat,
                           .shot = shot,
                           .from_s = line_.length_s(),
                           .to_s = static_cast<double>(steps_) * step_s,
                           .words = std::move(words)});
  }
  Timeline line() { return std::move(line_); }

 private:
  Timeline line_;
  long steps_ = 0;
};

/// Those of the topics that are said, as one text.
std::string together(const std::vector<Sentence>& told,
                     std::initializer_list<std::string_view> topics) {
  std::string words;
  for (const std::string_view topic : topics) {
    const std::string_view each = LessonWords::text_of(told, topic);
    if (each.empty()) continue;
    if (!words.empty()) words += ' ';
    words += each;
  }
  return words;
}

}  // namespace

long Timeline::frames(int rate) const { return std::lround(length_s() * rate); }

const Part& Timeline::at(double t_s) const {
  const auto part =
      std::ranges::find_if(parts, [t_s](const Part& p) { return t_s < p.to_s - 1e-9; });
  return part == parts.end() ? parts.back() : *part;
}

double reading_s(std::string_view words) {
  constexpr double least_s = 2.5;
  if (words.empty()) return glance_s;
  const auto spaces = static_cast<double>(std::ranges::count(words, ' '));
  return std::max(least_s, 0.5 + (spaces + 1) / 3);
}

Timeline timeline(const coach::Plan& plan, const LessonWords& words) {
  Filling filling;
  const auto pause = [&](Beat beat, std::size_t shot, const std::string& said) {
    filling.add(beat, shot, reading_s(said), said);
  };
  std::string whole{LessonWords::text_of(words.clearance, "title")};
  if (!whole.empty()) whole += ". ";
  whole += together(words.clearance, {"order", "whole"});
  pause(Beat::whole, 0, whole);
  for (std::size_t i = 0; i < plan.shots.size(); ++i) {
    const std::vector<Sentence>& told = words.shots[i];
    pause(Beat::aim, i, together(told, {"task"}));
    pause(Beat::contact, i, together(told, {"caution", "strike", "access"}));
    pause(Beat::tangent, i, "");
    pause(Beat::path, i, together(told, {"path"}));
    pause(Beat::leave, i, together(told, {"leave"}));
    filling.add(Beat::play, i, plan.shots[i].best.intended.still_s, "");
    pause(Beat::rest, i, together(told, {"came", "slip"}));
  }
  return filling.line();
}

Timeline clip_timeline(const coach::Plan& plan, std::size_t shot) {
  constexpr double before_s = 0.5;
  Filling filling;
  filling.add(Beat::leave, shot, before_s, "");
  filling.add(Beat::play, shot, plan.shots[shot].best.intended.still_s, "");
  filling.add(Beat::rest, shot, glance_s, "");
  return filling.line();
}

}  // namespace ahead::lesson
