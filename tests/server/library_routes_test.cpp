#include <gtest/gtest.h>

#include "tests/server/running_server.h"

// What the page keeps: every kind of entry, its revisions, and two pages on one entry.
namespace ahead::test {
namespace {

using nlohmann::json;

const Headers is_new{{"If-None-Match", "*"}};

Headers seen(int revision) { return {{"If-Match", '"' + std::to_string(revision) + '"'}}; }

std::string draft(const json& document, const std::string& name = "Tuesday") {
  return json{{"name", name}, {"document", document}}.dump();
}

TEST(TheLibrary, OpensOnTheExample) {
  const RunningServer server;
  EXPECT_EQ(server.ask("GET", "/api/layouts").json()["layouts"].size(), 1U);
  const json plans = server.ask("GET", "/api/plans").json()["plans"];
  ASSERT_EQ(plans.size(), 1U);
  const Answer plan = server.ask("GET", "/api/plans/" + plans[0]["id"].get<std::string>());
  EXPECT_EQ(plan.json()["document"]["format"], "three-ahead.plan/1");
  EXPECT_EQ(plan.json()["layout"], "example-evening-class");
}

TEST(TheLibrary, KeepsWhatIsPutIntoIt) {
  const RunningServer server;
  const json presets = server.ask("GET", "/api/presets").json();
  const json result{{"plan", "example-plan"}, {"plan_revision", 1},   {"shot", 1},
                    {"purpose", "game"},      {"potted", true},       {"actual", nullptr},
                    {"after", nullptr},       {"next_plan", nullptr}, {"note", "too far"}};
  const std::vector<std::pair<std::string, json>> kinds{{"layouts", example("evening-class.json")},
                                                        {"tables", presets["tables"][0]},
                                                        {"players", presets["players"][0]},
                                                        {"plans", example("after/plan.json")},
                                                        {"results", result}};
  for (const auto& [kind, document] : kinds) {
    const std::string path = "/api/" + kind + "/one";
    const Answer created = server.ask("PUT", path, draft(document), is_new);
    EXPECT_EQ(created.status, 201) << created.body;
    EXPECT_EQ(created.headers.at("etag"), "\"1\"");

    const Answer changed = server.ask("PUT", path, draft(document, "Later"), seen(1));
    EXPECT_EQ(changed.status, 200);
    EXPECT_EQ(changed.json()["revision"], 2);

    const Answer got = server.ask("GET", path);
    EXPECT_EQ(got.json()["name"], "Later");
    EXPECT_EQ(got.json()["document"], created.json()["document"]);
    EXPECT_EQ(server.ask("GET", "/api/" + kind).json()[kind][0]["id"], "one");

    EXPECT_EQ(server.ask("DELETE", path, "", seen(1)).problem(), "stale");
    EXPECT_EQ(server.ask("DELETE", path, "", seen(2)).status, 204);
    EXPECT_EQ(server.ask("GET", path).problem(), "not-found");
  }
}

TEST(TwoPagesOnOneEntry, TheLaterIsToldAndNothingIsOverwritten) {
  const RunningServer server;
  const json layout = example("evening-class.json");
  json mine = layout;
  mine["balls"][0]["at"] = {400, 700};
  json theirs = layout;
  theirs["balls"][0]["at"] = {500, 700};
  server.ask("PUT", "/api/layouts/one", draft(layout), is_new);

  EXPECT_EQ(server.ask("PUT", "/api/layouts/one", draft(mine), seen(1)).status, 200);
  const Answer later = server.ask("PUT", "/api/layouts/one", draft(theirs), seen(1));

  EXPECT_EQ(later.status, 412);
  EXPECT_EQ(later.problem(), "stale");
  EXPECT_EQ(later.json()["revision"], 2);
  EXPECT_EQ(server.ask("GET", "/api/layouts/one").json()["document"]["balls"][0]["at"][0], 400);
}

TEST(TheSameChangeSentAgain, IsHarmless) {
  const RunningServer server;
  const std::string layout = draft(example("evening-class.json"));
  EXPECT_EQ(server.ask("PUT", "/api/layouts/one", layout, is_new).status, 201);
  EXPECT_EQ(server.ask("PUT", "/api/layouts/one", layout, is_new).status, 201);
  const std::string renamed = draft(example("evening-class.json"), "Wednesday");
  EXPECT_EQ(server.ask("PUT", "/api/layouts/one", renamed, seen(1)).json()["revision"], 2);
  EXPECT_EQ(server.ask("PUT", "/api/layouts/one", renamed, seen(1)).json()["revision"], 2);
  EXPECT_EQ(server.ask("PUT", "/api/layouts/one", layout, is_new).problem(), "exists");
}

TEST(AChange, MustSayWhatItHasSeen) {
  const RunningServer server;
  const std::string layout = draft(example("evening-class.json"));
  EXPECT_EQ(server.ask("PUT", "/api/layouts/one", layout).status, 428);
  EXPECT_EQ(server.ask("PUT", "/api/layouts/one", layout, {{"If-Match", "3"}}).status, 400);
  EXPECT_EQ(server.ask("PUT", "/api/layouts/one", layout, seen(1)).status, 404);
  EXPECT_EQ(server.ask("DELETE", "/api/layouts/example-evening-class").status, 428);
  EXPECT_EQ(server.ask("PUT", "/api/layouts/No%20Name", layout, is_new).status, 422);
}

TEST(ALayoutThatIsBeingSet, IsKeptWithWhatItLacks) {
  const RunningServer server;
  json layout = example("evening-class.json");
  layout["balls"] = json::array({{{"id", "red-1"}, {"at", {100, 100}}}});
  const Answer kept = server.ask("PUT", "/api/layouts/one", draft(layout), is_new);
  EXPECT_EQ(kept.status, 201);
  EXPECT_NE(kept.json()["fault"]["detail"].get<std::string>().find("cue"), std::string::npos);
  layout["balls"].push_back({{"id", "cue"}, {"at", {400, 400}}});
  EXPECT_EQ(server.ask("PUT", "/api/layouts/one", draft(layout), seen(1)).json()["fault"], nullptr);
  layout["balls"].push_back({{"id", "blue-7"}, {"at", {400, 400}}});
  const Answer refused = server.ask("PUT", "/api/layouts/one", draft(layout), seen(2));
  EXPECT_EQ(refused.status, 422);
  EXPECT_EQ(refused.json()["place"], "/document/balls/2/id");
}

TEST(APlan, KeepsItsHistory) {
  const RunningServer server;
  const json first = server.ask("GET", "/api/plans/example-plan").json();
  json document = first["document"];
  document["shots"].erase(document["shots"].size() - 1);
  const std::string shorter =
      json{{"name", "Shorter"}, {"document", document}, {"layout", first["layout"]}}.dump();
  EXPECT_EQ(server.ask("PUT", "/api/plans/example-plan", shorter, seen(1)).status, 200);

  const json history = server.ask("GET", "/api/plans/example-plan/history").json()["revisions"];
  ASSERT_EQ(history.size(), 2U);
  EXPECT_EQ(history[0]["name"], "Shorter");
  EXPECT_EQ(history[1]["shots"].get<int>(), history[0]["shots"].get<int>() + 1);
  EXPECT_EQ(server.ask("GET", "/api/plans/example-plan/history/1").json(), first);
  EXPECT_EQ(server.ask("GET", "/api/plans/example-plan/history/3").status, 404);
}

TEST(APlan, OutlivesItsLayout) {
  const RunningServer server;
  EXPECT_EQ(server.ask("DELETE", "/api/layouts/example-evening-class", "", seen(1)).status, 204);
  EXPECT_EQ(server.ask("GET", "/api/plans/example-plan").json()["layout"], nullptr);
  const std::string lost =
      json{{"name", "x"}, {"document", example("after/plan.json")}, {"layout", "nowhere"}}.dump();
  EXPECT_EQ(server.ask("PUT", "/api/plans/two", lost, is_new).status, 422);
}

TEST(AFile, GoesOutAndComesBack) {
  const RunningServer server;
  const Answer file = server.ask("GET", "/api/layouts/example-evening-class/file");
  EXPECT_EQ(file.headers.at("content-disposition"),
            "attachment; filename=\"example-evening-class.json\"");
  EXPECT_EQ(file.json()["format"], "three-ahead.layout/1");

  const Answer back = server.ask("POST", "/api/import?name=Back%20again", file.body);
  EXPECT_EQ(back.status, 201);
  EXPECT_EQ(back.json()["kind"], "layouts");
  const Answer kept = server.ask("GET", "/api/layouts/" + back.json()["id"].get<std::string>());
  EXPECT_EQ(kept.json()["name"], "Back again");
  EXPECT_EQ(kept.json()["document"], file.json());

  const Answer plan = server.ask("GET", "/api/plans/example-plan/file");
  EXPECT_EQ(server.ask("POST", "/api/import", plan.body).json()["kind"], "plans");
  EXPECT_EQ(server.ask("POST", "/api/import", R"({"format": "else/1"})").json()["place"],
            "/format");
  EXPECT_EQ(server.ask("POST", "/api/import", "{").status, 422);
}

TEST(APlansPage, GoesOutInASandbox) {
  const RunningServer server;
  const Answer page = server.ask("GET", "/api/plans/example-plan/page");
  EXPECT_EQ(page.status, 200);
  EXPECT_TRUE(page.headers.at("content-security-policy").starts_with("sandbox"));
  const Answer drawing = server.ask("GET", "/api/plans/example-plan/shots/1/drawing");
  EXPECT_NE(drawing.body.find("<svg"), std::string::npos);
  EXPECT_EQ(server.ask("GET", "/api/plans/example-plan/shots/99/drawing").status, 404);
}

TEST(AChange, IsToldToEveryPageThatListens) {
  const RunningServer server;
  const RawConnection page(server.port());
  page.send("GET /api/events HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(server.port()) +
            "\r\n\r\n");
  EXPECT_NE(page.until("event: hello").find("text/event-stream"), std::string::npos);
  server.ask("PUT", "/api/layouts/one", draft(example("evening-class.json")), is_new);
  const std::string told = page.until("\"deleted\":false}\n\n");
  EXPECT_NE(told.find(R"({"kind":"layouts","id":"one","revision":1,"deleted":false})"),
            std::string::npos)
      << told;
}

}  // namespace
}  // namespace ahead::test
