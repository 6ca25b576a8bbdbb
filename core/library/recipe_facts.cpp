// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/library/recipe_facts.h"

#include "core/library/recipe_json.h"

#include <algorithm>
#include <bit>
#include <set>

namespace bw {
namespace {

constexpr std::size_t packedLayer = 9;  // coating, thickness, behaviour

void pack(std::string& bytes, std::uint32_t word) {
  for (int shift = 0; shift < 32; shift += 8) bytes += static_cast<char>(word >> shift & 0xff);
}

std::uint32_t unpack(const char* bytes) {
  std::uint32_t word = 0;
  for (std::size_t i = 4; i-- > 0;) word = word << 8 | static_cast<unsigned char>(bytes[i]);
  return word;
}

std::string packed(const std::vector<LayerFacts>& layers) {
  std::string bytes;
  for (const LayerFacts& layer : layers) {
    pack(bytes, layer.coating);
    pack(bytes, std::bit_cast<std::uint32_t>(layer.thickness_m));
    bytes += static_cast<char>(layer.behaviour);
  }
  return bytes;
}

/// A damaged number must not reach a sort.
float sane(double value) { return value > 0 && value < 1e6 ? static_cast<float>(value) : 0.0F; }

template <class E>
E wordAs(std::int64_t value, E last) {
  return value >= 0 && value <= static_cast<std::int64_t>(last) ? static_cast<E>(value) : E{};
}

/// Texts one below the other, each once: a longer index finds no more.
class WordList {
 public:
  void add(const std::string& text) {
    if (!text.empty() && m_known.insert(text).second) m_text += text + '\n';
  }
  void add(const Coat& coat, const Library& materials) {
    for (const Layer& layer : coat) {
      add(layer.name);
      add(layer.coating);
      add(layer.colour.value_or(""));
      if (const Coating* coating = findCoating(materials, layer.coating)) add(coating->name);
    }
  }
  const std::string& text() const { return m_text; }

 private:
  std::set<std::string> m_known;
  std::string m_text;
};

}  // namespace

double spotOf(const Machine& machine, const std::optional<std::string>& optic) {
  const auto found = std::ranges::find(machine.optics, optic.value_or(""), &Optic::id);
  return optic && found != machine.optics.end() && found->spotDiameter_m ? *found->spotDiameter_m : machine.spotDiameter_m;
}

Behaviour layerBehaviour(const Layer& layer, const Library& materials) {
  if (layer.behaviour) return *layer.behaviour;
  const Coating* coating = findCoating(materials, layer.coating);
  return coating ? coating->behaviour : Behaviour::Decomposes;
}

std::uint32_t termOf(Database& database, const std::string& text) {
  {
    Statement known = database.prepare("SELECT term_id FROM term WHERE text = ?");
    if (known.with(text).step()) return static_cast<std::uint32_t>(known.number(0));
  }
  Statement added = database.prepare("INSERT INTO term (text) VALUES (?)");
  added.with(text).run();
  return static_cast<std::uint32_t>(database.lastRow());
}

RecipeFacts factsOf(Database& database, const RecipeVersion& version) {
  RecipeFacts facts;
  facts.proof = version.proof.has_value();
  facts.substrate = termOf(database, version.part.substrate);
  if (const Substrate* metal = findSubstrate(version.materials, version.part.substrate)) facts.family = metal->family;
  facts.plate_m = static_cast<float>(version.part.thickness_m.likely);
  facts.finish = version.part.finish;
  const Step first = stepsOf(version.plan).front();
  facts.machine = termOf(database, first.machine);
  if (const Machine* machine = mainMachine(version)) {
    facts.kind = machine->kind;
    facts.spot_m = static_cast<float>(spotOf(*machine, first.optic));
  }
  for (const Layer& layer : version.coat) {
    if (facts.layers.size() == mostLayers) break;
    facts.layers.push_back(
        {termOf(database, layer.coating), static_cast<float>(layer.thickness_m.likely), layerBehaviour(layer, version.materials)});
  }
  return facts;
}

void writeFacts(Database& database, const RecipeFacts& facts) {
  Statement old = database.prepare("DELETE FROM recipe_facts WHERE recipe_id = ?");
  old.with(facts.row).run();
  Statement write = database.prepare("INSERT INTO recipe_facts VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  write.with(facts.row).with(facts.changed).with(static_cast<int>(facts.state)).with(facts.proof ? 1 : 0);
  write.with(std::int64_t{facts.substrate}).with(static_cast<int>(facts.family)).with(double{facts.plate_m});
  write.with(std::int64_t{facts.machine}).with(static_cast<int>(facts.kind)).with(double{facts.spot_m});
  write.with(static_cast<int>(facts.finish)).withBlob(packed(facts.layers)).run();
}

std::string wordsOf(const RecipeVersion& version) {
  WordList words;
  words.add(version.part.substrate);
  if (const Substrate* metal = findSubstrate(version.materials, version.part.substrate)) words.add(metal->name);
  words.add(wordOf(finishes, version.part.finish));
  words.add(version.coat, version.materials);
  for (const Area& area : version.part.areas) {
    words.add(area.name);
    words.add(area.coat.value_or(Coat{}), version.materials);
  }
  for (const Machine& machine : version.machines) {
    words.add(machine.id);
    words.add(machine.name);
    words.add(wordOf(machineKinds, machine.kind));
  }
  words.add(version.savedBy);
  if (version.proof) {
    words.add(version.proof->initials);
    words.add(version.proof->note);
    for (const Trial& trial : version.proof->trials) {
      words.add(trial.initials);
      words.add(trial.where);
      words.add(trial.note);
    }
  }
  return words.text();
}

std::uint32_t FactsTable::termNumber(const std::string& text) const {
  const auto found = m_numbers.find(text);
  return found == m_numbers.end() ? 0 : found->second;
}

void FactsTable::readTerms(Database& database) {
  Statement terms = database.prepare("SELECT term_id, text FROM term WHERE term_id >= ? ORDER BY term_id");
  terms.with(static_cast<std::int64_t>(m_terms.size()));
  while (terms.step()) {
    const auto id = static_cast<std::size_t>(terms.number(0));
    if (id > m_terms.size() + 10000000) continue;  // no number this program gives
    m_terms.resize(std::max(m_terms.size(), id + 1));
    m_terms[id] = terms.text(1);
    m_numbers[m_terms[id]] = static_cast<std::uint32_t>(id);
  }
}

FactsTable::Row& FactsTable::placeFor(std::int64_t row) {
  if (m_rows.empty() || m_rows.back().row < row) return m_rows.emplace_back();
  const auto at = std::ranges::lower_bound(m_rows, row, {}, &Row::row);
  return at->row == row ? *at : *m_rows.insert(at, Row{});
}

void FactsTable::readLayers(Row& row, std::string_view packed) {
  const std::size_t count = std::min(packed.size() / packedLayer, mostLayers);
  if (count > row.layerCount) {  // the old place is too small
    row.firstLayer = static_cast<std::uint32_t>(m_layers.size());
    m_layers.resize(m_layers.size() + count);
  }
  row.layerCount = static_cast<std::uint8_t>(count);
  row.coat_m = 0;
  for (std::size_t i = 0; i < count; ++i) {
    const char* at = packed.data() + i * packedLayer;
    LayerFacts& layer = m_layers[row.firstLayer + i];
    layer.coating = std::min<std::uint32_t>(unpack(at), static_cast<std::uint32_t>(m_terms.size() - 1));
    layer.thickness_m = sane(double{std::bit_cast<float>(unpack(at + 4))});
    layer.behaviour = wordAs(at[8], Behaviour::Scorches);
    row.coat_m += layer.thickness_m;
  }
}

void FactsTable::refresh(Database& database) {
  const ReadView view(database);
  readTerms(database);
  const auto known = [&](std::int64_t term) { return static_cast<std::uint32_t>(term > 0 && term < std::ssize(m_terms) ? term : 0); };
  // The whole table in its own order; later only what has changed, by the index.
  Statement facts = database.prepare(m_rows.empty() ? "SELECT * FROM recipe_facts ORDER BY recipe_id"
                                                    : "SELECT * FROM recipe_facts WHERE changed > ? ORDER BY changed");
  if (!m_rows.empty())
    facts.with(m_lastChange);
  else
    m_rows.reserve(static_cast<std::size_t>(database.number("SELECT count(*) FROM recipe_facts")));
  while (facts.step()) {
    Row& row = placeFor(facts.number(0));
    row.row = facts.number(0);
    row.changed = facts.number(1);
    row.state = wordAs(facts.number(2), RecipeState::Withdrawn);
    row.proof = facts.number(3) != 0;
    row.substrate = known(facts.number(4));
    row.family = wordAs(facts.number(5), MetalFamily::Magnesium);
    row.plate_m = sane(facts.real(6));
    row.machine = known(facts.number(7));
    row.kind = wordAs(facts.number(8), MachineKind::Continuous);
    row.spot_m = sane(facts.real(9));
    row.finish = wordAs(facts.number(10), Finish::Any);
    readLayers(row, facts.bytes(11));
    m_lastChange = std::max(m_lastChange, row.changed);
  }
}

}  // namespace bw
