// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/schema.h"

#include "core/exchange/bundle_json.h"
#include "core/exchange/schema_io.h"

namespace bw {

// Found by SchemaIo beside the structs they name.
static const char* nameInSchema(const Substrate&) { return "substrate"; }
static const char* nameInSchema(const Coating&) { return "coating"; }
static const char* nameInSchema(const Machine&) { return "machine"; }
static const char* nameInSchema(const Part&) { return "part"; }
static const char* nameInSchema(const Layer&) { return "layer"; }
static const char* nameInSchema(const Plan&) { return "plan"; }
static const char* nameInSchema(const Settings&) { return "settings"; }
static const char* nameInSchema(const Trial&) { return "trial"; }

namespace {

/// A plan of one step names its machine and settings itself; one of several leaves that to them.
void looseOneStep(Json& plan) {
  plan["required"] = Json::array({"name"});
  const Json one{{"required", Json::array({"machine", "settings"})}}, several{{"required", Json::array({"steps"})}};
  plan["anyOf"] = Json::array({one, several});
}

template <class S>
std::string schemaOf(const char* title, const char* about) {
  Json body, definitions = Json::object();
  SchemaIo io(body, definitions);
  S value;
  describe(io, value);
  looseOneStep(definitions["plan"]);
  Json schema{{"$schema", "https://json-schema.org/draft/2020-12/schema"}, {"title", title}, {"description", about}};
  for (const auto& [key, member] : body.items()) schema[key] = member;
  schema["$defs"] = definitions;
  return jsonText(schema);
}

}  // namespace

std::string bundleSchema() {
  return schemaOf<Bundle>(
      "Barewright bundle",
      "Recipes, materials and machines that one library gives to another. Numbers are in the unit their key names. Keys "
      "that are not listed are kept.");
}

std::string projectSchema() {
  return schemaOf<Project>("Barewright project",
                           "One job: part, coat, machines, plans and trials. Numbers are in the unit their key names. Keys that are not "
                           "listed are kept.");
}

}  // namespace bw
