#include "lesson/house_look.h"

#include "lesson/embedded_look.h"

namespace ahead::lesson {

Look house_look() { return formats::read_look(embedded_look("look").value()).value(); }

}  // namespace ahead::lesson
