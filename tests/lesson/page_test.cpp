#include "lesson/page.h"

#include <set>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "lesson/overview_figure.h"
#include "lesson/shot_figure.h"
#include "tests/lesson/played_plan.h"

namespace ahead::lesson {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

int count(const std::string& text, std::string_view what) {
  int n = 0;
  for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++n;
  return n;
}

/// The first tag that closes nothing or is not closed; empty when all is well.
std::string unbalanced(const std::string& text) {
  const std::set<std::string> empty{"meta", "!doctype"};
  std::vector<std::string> open;
  for (auto at = text.find('<'); at != std::string::npos; at = text.find('<', at + 1)) {
    const auto end = text.find('>', at);
    std::string tag = text.substr(at + 1, end - at - 1);
    const bool closed = tag.ends_with('/');
    tag = tag.substr(0, tag.find_first_of(" /\n", 1));
    if (tag.starts_with('/')) {
      if (open.empty() || "/" + open.back() != tag) return tag;
      open.pop_back();
    } else if (!closed && !empty.contains(tag)) {
      open.push_back(tag);
      if (tag == "script" || tag == "style") at = text.find("</" + tag, end) - 1;
    }
  }
  return open.empty() ? "" : open.back();
}

const std::string& page() {
  static const std::string once = plan_page(played::plan(), house_look());
  return once;
}

TEST(APage, NeedsNothingFromAnywhereElse) {
  EXPECT_EQ(count(page(), "http"), 0);
  EXPECT_EQ(count(page(), "src="), 0);
  EXPECT_EQ(count(page(), "url("), 0);
  EXPECT_EQ(count(page(), "@import"), 0);
  EXPECT_EQ(count(page(), "<link"), 0);
}

TEST(APage, ClosesEveryTag) { EXPECT_EQ(unbalanced(page()), ""); }

TEST(APage, HasASectionForThePlanAndForEachShot) {
  const auto shots = played::plan().shots.size();
  EXPECT_EQ(count(page(), "<section "), static_cast<int>(shots) + 1);
  for (std::size_t i = 1; i <= shots; ++i) {
    EXPECT_THAT(page(), HasSubstr("id=\"shot-" + std::to_string(i) + "\""));
  }
}

TEST(APage, GivesEveryPictureATextAlternative) {
  EXPECT_EQ(count(page(), "role=\"img\""), count(page(), "<title id="));
  EXPECT_EQ(count(page(), "<svg "), count(page(), "role=\"img\"") + count(page(), "aria-hidden"));
  EXPECT_EQ(count(page(), "></title>"), 0);
}

TEST(APage, UsesEveryIdOnce) {
  std::set<std::string> seen;
  for (auto at = page().find(" id=\""); at != std::string::npos;
       at = page().find(" id=\"", at + 1)) {
    const auto from = at + 5;
    const std::string id = page().substr(from, page().find('"', from) - from);
    EXPECT_TRUE(seen.insert(id).second) << id;
  }
}

TEST(APage, KeepsAPlayersNameFromBecomingMarkup) {
  coach::Plan plan = played::plan();
  plan.player.id = "<script>x</script>";
  plan.shots.resize(1);
  EXPECT_THAT(plan_page(plan, house_look()), Not(HasSubstr("<script>x")));
}

TEST(AShotFigure, IsAFileOfItsOwnWithWords) {
  const std::string svg = shot_figure(played::plan(), 0, house_look());
  EXPECT_EQ(unbalanced(svg), "");
  EXPECT_THAT(svg, HasSubstr("<title id=\"t\">"));
  EXPECT_THAT(svg, HasSubstr("class=\"ribbon cue\""));
  EXPECT_THAT(svg, HasSubstr("class=\"nine-tenths\""));
  EXPECT_THAT(svg, HasSubstr("tip touches here"));
}

TEST(AShotFigure, DrawsEveryBallThatIsLeft) {
  const coach::Plan& plan = played::plan();
  for (std::size_t i = 0; i < plan.shots.size(); ++i) {
    EXPECT_EQ(count(shot_figure(plan, i, house_look()), "<g class=\"ball "),
              static_cast<int>(plan.shots[i].before.balls.size()));
  }
}

TEST(AnOverview, NumbersEveryShot) {
  const coach::Plan& plan = played::plan();
  const std::string svg = overview_figure(plan, house_look());
  EXPECT_EQ(unbalanced(svg), "");
  std::set<std::string> numbers;
  for (auto at = svg.find("class=\"figure\""); at != std::string::npos;
       at = svg.find("class=\"figure\"", at + 1)) {
    const auto from = svg.find('>', at) + 1;
    numbers.insert(svg.substr(from, svg.find('<', from) - from));
  }
  std::set<std::string> wanted;
  for (std::size_t i = 1; i <= plan.shots.size(); ++i) wanted.insert(std::to_string(i));
  EXPECT_EQ(numbers, wanted);
}

}  // namespace
}  // namespace ahead::lesson
