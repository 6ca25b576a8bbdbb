// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/schema_io.h"

#include <map>

namespace bw {
namespace {

/// What keys mean where name and unit do not say it.
const std::map<std::string, const char*>& sentences() {
  static const std::map<std::string, const char*> all{
      {"absorptance", "share of the light that is taken up, at the machine's wavelength"},
      {"attachments", "photos and documents; content stands in the bundle's own list, under its SHA-256"},
      {"base64", "what the file holds (RFC 4648, section 4)"},
      {"beam_off_in_turns", "whether the laser is off while the head reverses"},
      {"before_beam", "precautions that somebody settled or waived by name"},
      {"checks", "what the machine really delivered, the last check last"},
      {"coat", "layers, the top one first"},
      {"coating", "id of a coating in the library or in materials"},
      {"components", "what may be in it that harms: lead, chromate, cadmium, zinc, pvc, asbestos, pcb, isocyanate, fluoropolymer, pah"},
      {"cover_glass_h", "beam hours on the cover glass that is in"},
      {"date", "ISO 8601"},
      {"declined", "revision of a later card that shall not be copied"},
      {"edge_trim_mm", "keeps the beam off within this distance of a line's ends"},
      {"estimate", "true: nobody measured or published the value"},
      {"eyewear", "for how many of the people in the room"},
      {"eyewear_optical_density", "of the weakest eyewear, at the machine's wavelength"},
      {"fails", "sentences of the checks that failed"},
      {"finish", "what the metal may show afterwards: nothing, a light etch, anything"},
      {"focus_offset_mm", "from the focus to the part"},
      {"from", "who gives it away, in their words"},
      {"item", "the precaution's id as assess prints it; it names what it concerns"},
      {"id", "stable, the same in every library"},
      {"initials", "whose judgement or trial"},
      {"key", "of this profile within the bundle; versions name it under uses"},
      {"keep", "whether this layer must stay"},
      {"limit_faces", "the face each own limit holds on, by the limit's name"},
      {"machine_origins", "from which cards of a library machines were copied"},
      {"machine_per_hour", "of machines that state no hourly cost"},
      {"machines", "profiles with optics and limits"},
      {"made_at", "ISO 8601, UTC, by the clock of the computer that wrote the bundle"},
      {"masks", "against fume, for how many of the people in the room"},
      {"melts_C", "of a metal coating, a limit of near heat where its layer must stay"},
      {"model_version", "version of the model that predicted it or that it was proven with"},
      {"number", "1, 2, 3, ...: tells the order of versions, which a clock cannot"},
      {"numbers", "predicted numbers by the key of the results, in the unit the key names"},
      {"part_boils_C", "where a part of the alloy boils out, a limit of near heat"},
      {"plan", "machine and settings, or steps that follow each other"},
      {"predicted", "what the model said when the version was saved"},
      {"proof", "what was tried and measured, by whom and when"},
      {"proof_machines", "keys of the machines as they were when it was proven"},
      {"reason", "why it was withdrawn"},
      {"recipes", "each with all its versions"},
      {"saved_at", "ISO 8601, UTC, by the clock of the computer that saved it"},
      {"saved_by", "initials"},
      {"settings", "of beam, scan and hand"},
      {"sha256", "64 digits of 0-9 and a-f of what the file holds"},
      {"shared", "profiles as recipes of this bundle were made with, each once"},
      {"source", "where the value was read, or a word that it has none"},
      {"spot_diameter_um", "1/e2 diameter at focus"},
      {"state", "of the newest version: never tried, shown to work, or known not to"},
      {"step_over_mm", "from swath to swath, across the travel"},
      {"tilt_deg", "of the surface against the beam's axis, 0 is square"},
      {"travel_angle_deg", "from the scan lines: 90 is across them"},
      {"trials", "patches that were stripped"},
      {"turnaround_us", "time the head needs to reverse"},
      {"uses", "keys of profiles under shared that belong to this version"},
      {"value", "one number, or [low, likely, high]: nine in ten real ones lie between low and high"},
      {"versions", "every saved state, oldest first; none is ever overwritten"},
  };
  return all;
}

std::string inWords(const FileQuantity& quantity) {
  return std::string(quantity.noun) + (*quantity.unit.symbol ? std::string(", in ") + quantity.unit.symbol : "");
}

Json numberOf(const FileQuantity& quantity) {
  return {{"type", "number"},
          {quantity.bound == Bound::Above ? "exclusiveMinimum" : "minimum", jsonNumber(quantity.low)},
          {"maximum", jsonNumber(quantity.high)}};
}

Json listOf(const FileQuantity& quantity, std::size_t fewest, std::size_t most) {
  return {{"type", "array"}, {"items", numberOf(quantity)}, {"minItems", fewest}, {"maxItems", most}};
}

}  // namespace

Json SchemaIo::explained(const std::string& key, Json schema) {
  if (key == "sha256") schema["pattern"] = "^[0-9a-f]{64}$";
  if (key == "base64") schema["contentEncoding"] = "base64";
  const auto sentence = sentences().find(key);
  if (sentence == sentences().end()) return schema;
  const std::string noun = schema.contains("description") ? schema["description"].get<std::string>() + ": " : "";
  schema["description"] = noun + sentence->second;
  return schema;
}

Json SchemaIo::of(double&, const FileQuantity& quantity) {
  Json schema = numberOf(quantity);
  schema["description"] = inWords(quantity);
  return schema;
}

Json SchemaIo::of(Range&, const FileQuantity& quantity) {
  return {{"anyOf", Json::array({numberOf(quantity), listOf(quantity, 3, 3)})},
          {"description", inWords(quantity) + "; a number or [low, likely, high]"}};
}

Json SchemaIo::of(std::array<double, 2>&, const FileQuantity& quantity) {
  Json schema = listOf(quantity, 2, 2);
  schema["description"] = inWords(quantity) + ", twice";
  return schema;
}

Json SchemaIo::of(std::vector<double>&, const OneOrMany& many) {
  return {{"anyOf", Json::array({numberOf(many.each), listOf(many.each, 0, longestList)})},
          {"description", inWords(many.each) + "; one or a list"}};
}

Json SchemaIo::of(int&, const Whole& whole) {
  return {{"type", "integer"}, {"minimum", whole.low}, {"maximum", whole.high}, {"description", whole.noun}};
}

Json SchemaIo::of(std::string&, const Text& text) {
  return {{"type", "string"}, {"minLength", text.shortest}, {"maxLength", text.longest}, {"description", text.noun}};
}

}  // namespace bw
