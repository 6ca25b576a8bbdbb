// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/library/recipe.h"
#include "core/library/sqlite.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace bw {

/// A layer as it is searched by.
struct LayerFacts {
  std::uint32_t coating = 0;  // a term
  float thickness_m = 0;
  Behaviour behaviour = Behaviour::Decomposes;
  bool operator==(const LayerFacts&) const = default;
};

/// What a recipe is searched by, ids as numbers.
struct RecipeFacts {
  std::int64_t row = 0;
  std::int64_t changed = 0;  // grows with every save in the library: the order of saving
  RecipeState state = RecipeState::Draft;
  bool proof = false;
  std::uint32_t substrate = 0;  // a term
  MetalFamily family = MetalFamily::Unknown;
  float plate_m = 0;
  std::uint32_t machine = 0;  // a term
  MachineKind kind = MachineKind::Pulsed;
  float spot_m = 0;  // 1/e2 diameter at focus
  Finish finish = Finish::LightEtch;
  std::vector<LayerFacts> layers;
};

/// More layers than any coat has; those beyond are not searched by.
inline constexpr std::size_t mostLayers = 64;

/// Spot of the plan's first step: its optic's, or the machine's own.
double spotOf(const Machine& machine, const std::optional<std::string>& optic);

/// How a layer leaves: by its own word, or by its coating's.
Behaviour layerBehaviour(const Layer& layer, const Library& materials);

/// The number of a text, given to it now if it has none.
std::uint32_t termOf(Database& database, const std::string& text);

/// Facts of a version; terms it names are numbered.
RecipeFacts factsOf(Database& database, const RecipeVersion& version);

void writeFacts(Database& database, const RecipeFacts& facts);

/// What a recipe is found by besides its name and note: materials, machine, initials.
std::string wordsOf(const RecipeVersion& version);

/// The facts of the whole library in memory, packed, in the order the recipes came in. Brought up to date before each search.
class FactsTable {
 public:
  /// One recipe; its layers stand in a pool.
  struct Row {
    std::int64_t row = 0;
    std::int64_t changed = 0;
    std::uint32_t substrate = 0;
    std::uint32_t machine = 0;
    float plate_m = 0;
    float coat_m = 0;
    float spot_m = 0;
    std::uint32_t firstLayer = 0;
    std::uint8_t layerCount = 0;
    RecipeState state = RecipeState::Draft;
    bool proof = false;
    MetalFamily family = MetalFamily::Unknown;
    MachineKind kind = MachineKind::Pulsed;
    Finish finish = Finish::LightEtch;
  };

  /// Reads what was saved since the last time.
  void refresh(Database& database);
  void clear() { *this = {}; }

  const std::vector<Row>& rows() const { return m_rows; }
  const LayerFacts* layers(const Row& row) const { return m_layers.data() + row.firstLayer; }
  std::int64_t lastChange() const { return m_lastChange; }

  std::size_t termCount() const { return m_terms.size(); }
  const std::string& term(std::uint32_t id) const { return m_terms[id]; }
  /// 0, which no term has, where the library does not know the text.
  std::uint32_t termNumber(const std::string& text) const;

 private:
  void readTerms(Database& database);
  Row& placeFor(std::int64_t row);
  void readLayers(Row& row, std::string_view packed);

  std::vector<Row> m_rows;
  std::vector<LayerFacts> m_layers;
  std::vector<std::string> m_terms{std::string()};
  std::unordered_map<std::string, std::uint32_t> m_numbers;
  std::int64_t m_lastChange = 0;
};

}  // namespace bw
