#include <filesystem>
#include <string>

#include <gtest/gtest.h>

#include "formats/workbench/base64.h"
#include "tests/photographs/judge.h"
#include "tests/server/openapi.h"
#include "tests/server/running_server.h"
#include "tests/support/text_of.h"

// A photograph that the page sends, and the plan drawn back onto it.
namespace ahead::test {
namespace {

using nlohmann::json;

const std::filesystem::path scenes =
    std::filesystem::path(AHEAD_SOURCE_DIR) / "tests/photographs/scenes";

json photograph() {
  const photographs::Truth truth = photographs::read_truth(scenes).front();
  json corners = json::array();
  for (const engine::Vec2 corner : truth.given) corners.push_back({corner.x, corner.y});
  return {{"photograph", formats::base64_of(text_of(scenes / truth.file))},
          {"table", truth.table},
          {"corners", corners}};
}

TEST(APhotographFromThePage, GivesItsBalls) {
  const RunningServer server;
  const Answer answer = server.ask("POST", "/api/capture", photograph().dump());
  ASSERT_EQ(answer.status, 200) << answer.body;
  EXPECT_GT(answer.json()["balls"].size(), 5U);
}

TEST(APhotographFromThePage, IsDrawnUpon) {
  const RunningServer server;
  const json captured = server.ask("POST", "/api/capture", photograph().dump()).json();
  const json plan = json::parse(text_of(AHEAD_SOURCE_DIR "/examples/after/plan.json"));
  const json question{{"camera", captured["camera"]}, {"plan", plan}, {"shot", 0}};
  const Answer answer = server.ask("POST", "/api/capture/drawing", question.dump());
  ASSERT_EQ(answer.status, 200) << answer.body;
  const auto png = formats::bytes_of_base64(answer.json()["png"].get<std::string>());
  ASSERT_TRUE(png.has_value());
  EXPECT_TRUE(png->starts_with("\x89PNG"));
}

TEST(APhotographFromThePage, IsRefusedWithTheReason) {
  const RunningServer server;
  const auto refusal = [&](const json& question) {
    const Answer answer = server.ask("POST", "/api/capture", question.dump());
    EXPECT_EQ(answer.problem(), "bad-input");
    return answer.json()["detail"].get<std::string>();
  };
  json question = photograph();
  question["photograph"] = "not base64!";
  EXPECT_NE(refusal(question).find("base64"), std::string::npos);
  question["photograph"] = formats::base64_of("no picture");
  EXPECT_NE(refusal(question).find("is no picture that is read"), std::string::npos);
  question = photograph();
  std::swap(question["corners"][0], question["corners"][1]);
  EXPECT_NE(refusal(question).find("crossed over"), std::string::npos);
}

// RFC 4648, section 10.
TEST(Base64, IsThatOfItsStandard) {
  const std::vector<std::pair<std::string, std::string>> vectors{{"", ""},
                                                                 {"f", "Zg=="},
                                                                 {"fo", "Zm8="},
                                                                 {"foo", "Zm9v"},
                                                                 {"foob", "Zm9vYg=="},
                                                                 {"fooba", "Zm9vYmE="},
                                                                 {"foobar", "Zm9vYmFy"}};
  for (const auto& [bytes, text] : vectors) {
    EXPECT_EQ(formats::base64_of(bytes), text);
    EXPECT_EQ(formats::bytes_of_base64(text), bytes);
  }
  for (const char* wrong : {"Zg=", "Zg", "Z===", "====", "Zm9v====", "Zm=v", "Zm 9"}) {
    EXPECT_EQ(formats::bytes_of_base64(wrong), std::nullopt) << wrong;
  }
}

}  // namespace
}  // namespace ahead::test
