// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/support/catch.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace {

namespace fs = std::filesystem;

const fs::path source = BAREWRIGHT_SOURCE_DIR;

std::string textOf(const fs::path& file) {
  std::ifstream stream(file);
  return {std::istreambuf_iterator<char>(stream), {}};
}

/// Which folders each folder's files include from.
using Graph = std::map<std::string, std::set<std::string>>;

Graph graphOf(const std::string& top) {
  const std::regex line("#include \"((?:core|ui)(?:/[^\"]*)?)/[^/\"]*\"");
  Graph graph;
  for (const auto& entry : fs::recursive_directory_iterator(source / top)) {
    if (entry.path().extension() != ".h" && entry.path().extension() != ".cpp") continue;
    const std::string folder = fs::relative(entry.path().parent_path(), source).generic_string(), text = textOf(entry.path());
    for (auto found = std::sregex_iterator(text.begin(), text.end(), line); found != std::sregex_iterator(); ++found)
      if ((*found)[1] != folder) graph[folder].insert((*found)[1]);
  }
  return graph;
}

/// Folders in the order in which a CMakeLists names them.
std::vector<std::string> orderIn(const fs::path& file) {
  const std::string text = textOf(file);
  std::smatch list;
  REQUIRE(std::regex_search(text, list, std::regex("foreach\\(folder ([^)]*)\\)")));
  std::istringstream words(list[1]);
  return {std::istream_iterator<std::string>(words), {}};
}

void checkOrder(const std::string& top) {
  const std::vector<std::string> order = orderIn(source / top / "CMakeLists.txt");
  const auto place = [&](const std::string& folder) {
    if (folder == top) return order.size();  // what is put together in no folder may use all of them
    return static_cast<std::size_t>(std::ranges::find(order, folder.substr(top.size() + 1)) - order.begin());
  };
  const Graph graph = graphOf(top);
  CHECK(graph.size() > 10);
  for (const auto& [from, targets] : graph) {
    for (const std::string& to : targets) {
      if (!to.starts_with(top)) continue;
      INFO(from << " includes from " << to);
      CHECK(place(to) < place(from));
    }
  }
}

}  // namespace

TEST_CASE("Arrows between the core's folders point one way, in the order in which they are built", "[structure]") { checkOrder("core"); }

TEST_CASE("Arrows between the window's folders point one way too", "[structure]") { checkOrder("ui"); }

TEST_CASE("The core includes nothing of the window, nor of its toolkit", "[structure]") {
  for (const auto& [from, targets] : graphOf("core"))
    for (const std::string& to : targets) CHECK_FALSE(to.starts_with("ui"));
  for (const auto& entry : fs::recursive_directory_iterator(source / "core")) {
    if (!entry.is_regular_file()) continue;
    const std::string text = textOf(entry.path());
    INFO(entry.path().string());
    CHECK_FALSE(std::regex_search(text, std::regex("#include <(Q[A-Z]|Qt)")));
  }
}
