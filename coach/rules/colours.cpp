#include "coach/rules/colours.h"

namespace ahead::coach {

std::vector<ToPlay> colours_to_take(const Layout& layout) {
  if (layout.to_play != ToPlay::open) return {layout.to_play};
  if (layout.rules == Rules::american_8ball) return {ToPlay::solid, ToPlay::stripe};
  return {ToPlay::red, ToPlay::yellow};
}

}  // namespace ahead::coach
