// SPDX-License-Identifier: GPL-3.0-or-later

// Runs a fuzz target without libFuzzer: every seed, then seeds changed at random, always the same ones. Not as clever, as it does not see
// which code was reached, but it needs no other compiler. mutations FOLDER COUNT

#include <algorithm>
#include <csignal>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

std::string g_fed;  // what the target is reading

/// Prints what broke the target, so that it can become a seed.
extern "C" void printFed(int) {
  std::fwrite(g_fed.data(), 1, g_fed.size(), stderr);
  std::fputc('\n', stderr);
}

void feed(const std::string& text) {
  g_fed = text;
  LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(text.data()), text.size());
}

std::vector<std::string> readSeeds(const std::filesystem::path& folder) {
  std::vector<std::filesystem::path> paths;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) paths.push_back(entry.path());
  std::sort(paths.begin(), paths.end());
  std::vector<std::string> seeds;
  for (const auto& path : paths) {
    std::ifstream stream(path, std::ios::binary);
    seeds.emplace_back(std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>());
  }
  return seeds;
}

class Mutator {
 public:
  explicit Mutator(const std::vector<std::string>& seeds) : m_seeds(seeds) {}

  std::string next() {
    std::string text = m_seeds[below(m_seeds.size())];
    for (std::size_t changes = 1 + below(4); changes > 0 && !text.empty(); --changes) change(text);
    return text;
  }

 private:
  std::size_t below(std::size_t count) { return m_random() % count; }

  /// A piece of some seed, or of what breaks readers.
  std::string piece() {
    static const char* const nasty[] = {"1e999",    "-1",     "null",      "[",       "]",       "{",
                                        "}",        ",",      "\"",        "\\u0000", "\xFF",    "\\ud800",
                                        "true",     "1e-400", "\"../..\"", "[]",      "{\"a\":", "99999999999999999999",
                                        "\xC0\xAF", "\n"};
    if (below(2) == 0) return nasty[below(std::size(nasty))];
    const std::string& seed = m_seeds[below(m_seeds.size())];
    return seed.empty() ? seed : seed.substr(below(seed.size()), 1 + below(60));
  }

  void change(std::string& text) {
    const std::size_t at = below(text.size());
    switch (below(5)) {
      case 0:
        text[at] = static_cast<char>(below(256));
        break;
      case 1:
        text.insert(at, piece());
        break;
      case 2:
        text.erase(at, 1 + below(40));
        break;
      case 3:
        text.replace(at, 1 + below(20), piece());
        break;
      default:
        changeNumber(text, at);
    }
  }

  /// The next number after `at` becomes another one: the text stays JSON, what it says may make no sense.
  void changeNumber(std::string& text, std::size_t at) {
    static const char* const numbers[] = {"0", "-1", "1", "1e308", "-1e308", "5e-324", "10001", "0.5", "2147483648", "1e16"};
    const std::size_t from = text.find_first_of("0123456789", at);
    if (from == std::string::npos) return;
    const std::size_t end = std::min(text.find_first_not_of("0123456789.e+-", from), text.size());
    text.replace(from, end - from, numbers[below(std::size(numbers))]);
  }

  const std::vector<std::string>& m_seeds;
  std::mt19937 m_random{20260301};
};

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) return 2;
  const std::vector<std::string> seeds = readSeeds(argv[1]);
  if (seeds.empty()) return 2;
  std::signal(SIGABRT, printFed);
  for (const std::string& seed : seeds) feed(seed);
  Mutator mutator(seeds);
  const int count = std::atoi(argv[2]);
  for (int i = 0; i < count; ++i) feed(mutator.next());
  std::printf("%zu seeds and %d changed ones were read\n", seeds.size(), count);
  return count > 0 ? 0 : 2;
}
