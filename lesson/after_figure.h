#pragma once

#include <string>

#include "coach/after/aftermath.h"
#include "lesson/house_look.h"

namespace ahead::lesson {

/// The table as it was found, over the path that was meant (a dashed line and dashed rings where
/// balls were to stop) and the paths of the likeliest strike (ribbons), with the words.
[[nodiscard]] std::string after_figure(const coach::Plan& plan, const coach::Aftermath& after,
                                       const Look& look);

}  // namespace ahead::lesson
