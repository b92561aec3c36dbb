#include "formats/workbench/problem.h"

#include "formats/workbench/json_object.h"

namespace ahead::formats {

std::string problem_text(const Problem& problem) {
  JsonObject json;
  json.add_words("type", "urn:three-ahead:problem:" + problem.name)
      .add_words("title", problem.title)
      .add_number("status", problem.status)
      .add_words("detail", problem.detail);
  if (problem.input) {
    json.add_words("place", problem.input->place)
        .add_words("wrong", problem.input->wrong)
        .add_words("mend", problem.input->mend);
  }
  if (problem.revision) json.add_number("revision", *problem.revision);
  if (problem.retry_after_s) json.add_number("retry_after_s", *problem.retry_after_s);
  return json.text();
}

}  // namespace ahead::formats
