// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/heat/limits.h"

#include "core/heat/tint.h"

#include <algorithm>

namespace bw {

namespace {

struct BehindLimit {
  Behind behind;
  const char* name;
  Felt felt;
  double limit_C;  // the low end of each range: what softens is not asked how long it was warm
  double upTo_C;
  const char* source;
};

constexpr BehindLimit behindLimits[] = {
    {Behind::Wax, "wax behind", Felt::Back, 60, 90, "cavity wax drips at 60 to 90 C, from memory"},
    {Behind::Paint, "paint behind softens", Felt::Back, 60, 90, "refinish paint softens at 60 to 90 C, from memory"},
    {Behind::Paint, "paint behind scorches", Felt::Scorch, 180, 230,
     "baked paint yellows and blisters at 180 to 230 C in minutes, from memory"},
    {Behind::Foam, "foam behind", Felt::Back, 70, 90, "foams age from 70 to 90 C, from memory"},
    {Behind::Adhesive, "adhesive behind", Felt::Back, 80, 130, "structural epoxy softens at 80 to 130 C, from memory"},
    {Behind::Sealer, "seam sealer behind", Felt::Back, 100, 200,
     "butyl softens at 100 C, PVC sealer bears 180 to 200 C for a short time, from memory"},
    {Behind::Rubber, "rubber behind", Felt::Back, 70, 150, "natural rubber ages from 70 to 90 C, EPDM from 130 to 150 C, from memory"},
    {Behind::Solder, "solder behind melts", Felt::Back, 183, 190, "tin-lead solder melts at 183 C (eutectic) to 190 C, from memory"},
    {Behind::Wiring, "wiring behind", Felt::Back, 70, 105, "common cable insulation is rated for 70 C, better for 105 C, from memory"},
    {Behind::Wood, "wood behind", Felt::Back, 150, 200, "wood darkens and begins to char above 150 C over minutes, from memory"},
    {Behind::ClosedCavity, "closed cavity behind", Felt::Back, 60, 60, "what is inside is not known: the careful limit"},
    {Behind::Fuel, "fuel behind", Felt::Back, 40, 40, "no heat beside fuel: empty, clean and vent first; the careful limit"},
    {Behind::Unknown, "unknown behind", Felt::Back, 60, 60, "what is behind is not known: the careful limit"},
};

class LimitList {
 public:
  LimitList(double start_C, const HeatPeaks& peaks) : m_start(start_C), m_peaks(peaks) {}

  void add(const std::string& name, Felt felt, Range limit_C, const std::string& source, bool warnOnly = false) {
    LimitResult limit{name,
                      felt == Felt::Back || felt == Felt::Scorch ? "back" : "front",
                      0,
                      limit_C.likely,
                      std::nullopt,
                      source,
                      warnOnly,
                      felt,
                      std::max(limit_C.likely, limit_C.high)};
    limit.predicted_C = feltBy(limit, m_peaks);
    if (limit.limit_C > m_start) limit.margin = (limit.limit_C - limit.predicted_C) / (limit.limit_C - m_start);
    m_limits.push_back(limit);
  }
  void add(const std::string& name, Felt felt, const std::optional<Property>& limit, bool warnOnly = false) {
    if (limit) add(name, felt, limit->range, limit->source, warnOnly);
  }
  std::vector<LimitResult> take() { return std::move(m_limits); }

 private:
  double m_start;
  const HeatPeaks& m_peaks;
  std::vector<LimitResult> m_limits;
};

/// Melting by finish: untouched metal not even within a pulse; otherwise never for so long that a gauge would feel it.
void addMelting(LimitList& list, const Part& part, const Metal& metal) {
  list.add("metal melts within a pulse", Felt::Flash, metal.melting_C.range, metal.melting_C.source, part.finish != Finish::Untouched);
  list.add("metal melts for 10 ms", Felt::Front, metal.melting_C.range, metal.melting_C.source);
}

void addMetal(LimitList& list, const Part& part, const Metal& metal, const HeatPeaks& peaks) {
  const bool anyLook = part.finish == Finish::Any, melts = peaks.flash_C >= metal.melting_C.range.likely;
  addMelting(list, part, metal);
  list.add("heat tint (ten-minute colour)", Felt::Tint, metal.tint_C, anyLook);
  if (metal.tint_C) {
    const std::string unsure = melts ? "; where the beam melts the metal its oxide is another, not modelled: a warning only" : "";
    list.add("heat tint under the beam", Felt::TintUnderBeam, metal.tint_C->range, metal.tint_C->source + unsure, anyLook || melts);
  }
  list.add("hardening", Felt::Near, metal.hardening_C);
  list.add("temper or strength lost", Felt::Front, metal.temper_C);
  list.add("plating melts", Felt::Near, metal.platingMelts_C);
  list.add("part of the metal boils out", Felt::Near, metal.partBoils_C);
}

/// Layers that must stay and can melt. The metal's own plating needs no second limit.
void addKept(LimitList& list, const Metal& metal, const std::vector<LayerMaterial>& coat) {
  for (const LayerMaterial& layer : coat) {
    if (!layer.keep || !layer.melts_C) continue;
    if (metal.platingMelts_C && metal.platingMelts_C->range.likely <= layer.melts_C->range.likely) continue;
    list.add("kept layer \"" + layer.name + "\" melts", Felt::Near, layer.melts_C);
  }
}

/// What must never be taken lightly: no limit of the user's own makes it a mere warning.
bool isGrave(Behind behind) { return behind == Behind::Fuel || behind == Behind::ClosedCavity || behind == Behind::Unknown; }

/// What lies behind sets the back face's limit, unless the project states one of its own: then it only warns. Where nothing is said about
/// it, a warning at the careful limit.
void addBehind(LimitList& list, const Part& part) {
  const bool ownLimit = part.limits.contains("back_face_C");
  if (part.behind.empty() && !ownLimit)
    list.add("not said what is behind", Felt::Back, Range::exact(60), "what is behind is not said: the careful limit", true);
  for (const BehindLimit& known : behindLimits) {
    if (std::ranges::find(part.behind, known.behind) == part.behind.end()) continue;
    list.add(known.name, known.felt, {known.limit_C, known.limit_C, known.upTo_C}, known.source, ownLimit && !isGrave(known.behind));
  }
}

/// "soldered_seam_C" as people say it.
std::string spoken(std::string key) {
  if (key.ends_with("_C")) key.resize(key.size() - 2);
  std::ranges::replace(key, '_', ' ');
  return key;
}

/// Whether a limit that names no face is one of a whole face, by how such a key begins.
std::optional<Face> faceInName(const std::string& name) {
  if (name.starts_with("front")) return Face::Front;
  return name.starts_with("back") ? std::optional(Face::Back) : std::nullopt;
}

/// A limit that does not say on which face it holds is taken on the back, and says so.
void addOwn(LimitList& list, const Part& part) {
  for (const auto& [name, limit_C] : part.limits) {
    const auto stated = part.limitFaces.find(name);
    const bool isStated = stated != part.limitFaces.end();
    const std::optional<Face> named = faceInName(name);
    const Face face = isStated ? stated->second : named.value_or(Face::Back);
    const std::string label = isStated || !named ? spoken(name) : face == Face::Front ? "front face" : "back face";
    list.add(label, face == Face::Front ? Felt::Front : Felt::Back, Range::exact(limit_C),
             isStated || named ? "set in the project" : "set in the project without a face; taken on the back");
  }
}

std::vector<double> raised(const std::vector<double>& temperature_C, double rise_K) {
  std::vector<double> out = temperature_C;
  for (double& value : out) value += rise_K;
  return out;
}

/// When a history of the faces meets a limit.
std::optional<double> moment(const LimitResult& limit, const std::vector<double>& time_s, const std::vector<double>& near_C,
                             const std::vector<double>& front_C, const std::vector<double>& back_C, double flashRise_K) {
  switch (limit.felt) {
    case Felt::Flash:
      return firstAbove(time_s, raised(near_C, flashRise_K), limit.limit_C);
    case Felt::Near:
      return firstAbove(time_s, near_C, limit.limit_C);
    case Felt::Front:
      return firstAbove(time_s, front_C, limit.limit_C);
    case Felt::Back:
      return firstAbove(time_s, back_C, limit.limit_C);
    case Felt::Tint:
      return firstAsMuch(time_s, front_C, tintRate_m2_s, limit.limit_C);
    case Felt::Scorch:
      return firstAsMuch(time_s, back_C, scorchRate, limit.limit_C);
    case Felt::TintUnderBeam:
      break;  // grows in moments that the history does not hold
  }
  return std::nullopt;
}

}  // namespace

double feltBy(const LimitResult& limit, const HeatPeaks& peaks) {
  switch (limit.felt) {
    case Felt::Flash:
      return peaks.flash_C;
    case Felt::Near:
      return peaks.near_C;
    case Felt::Front:
      return peaks.front_C;
    case Felt::Back:
      return peaks.back_C;
    case Felt::Tint:
      return peaks.tintEquivalent_C;
    case Felt::TintUnderBeam:
      return peaks.tintUnderBeam_C;
    case Felt::Scorch:
      break;
  }
  return peaks.scorchEquivalent_C;
}

HeatSite siteOf(const LimitResult& limit) {
  return limit.felt == Felt::Back || limit.felt == Felt::Scorch ? HeatSite::Back : HeatSite::Front;
}

HeatSite siteOf(const std::vector<LimitResult>& limits) {
  const LimitResult* telling = tellingLimit(limits);
  return telling ? siteOf(*telling) : HeatSite::Front;
}

void addMoments(std::vector<LimitResult>& limits, const ThermalResult& thermal) {
  for (LimitResult& limit : limits) {
    const HeatTrace& trace = thermal.traceAt(siteOf(limit));
    if (limit.predicted_C >= limit.limit_C)
      limit.reached_s = moment(limit, trace.time_s, trace.near_C, trace.front_C, trace.back_C, thermal.flashRise_K);
  }
}

void addStillHand(std::vector<LimitResult>& limits, const StillHandHeat& still, double flashRise_K) {
  for (LimitResult& limit : limits) limit.stillHand_s = moment(limit, still.time_s, still.near_C, still.front_C, still.back_C, flashRise_K);
}

std::vector<LimitResult> limitsOf(const Part& part, const Metal& metal, const std::vector<LayerMaterial>& coat, const HeatPeaks& peaks) {
  LimitList list(part.startTemperature_C, peaks);
  addOwn(list, part);
  addBehind(list, part);
  addMetal(list, part, metal, peaks);
  addKept(list, metal, coat);
  list.add("too hot to touch (1 s, bare metal)", Felt::Back, {65, 65, 70}, "ISO 13732-1, burn threshold 65 to 70 C, from memory", true);
  return list.take();
}

Status statusOf(const LimitResult& limit) {
  if (!limit.margin) return Status::NotKnown;
  if (*limit.margin < 0) return Status::Fails;
  const bool mayReach = limit.predictedRange_C && limit.predictedRange_C->high >= limit.limit_C;
  return *limit.margin < nearMargin || mayReach ? Status::Near : Status::Meets;
}

const LimitResult* tellingLimit(const std::vector<LimitResult>& limits) {
  const LimitResult* telling = nullptr;
  for (const LimitResult& limit : limits) {
    if (limit.warnOnly || !limit.margin) continue;
    const int worse = telling ? severity(statusOf(limit)) - severity(statusOf(*telling)) : 1;
    if (worse > 0 || (worse == 0 && *limit.margin < *telling->margin)) telling = &limit;
  }
  return telling;
}

const LimitResult* worstLimit(const std::vector<LimitResult>& limits) {
  const LimitResult* worst = nullptr;
  for (const LimitResult& limit : limits) {
    if (limit.warnOnly || !limit.margin) continue;
    if (!worst || *limit.margin < *worst->margin) worst = &limit;
  }
  return worst;
}

std::optional<double> worstMargin(const std::vector<LimitResult>& limits) {
  const LimitResult* worst = worstLimit(limits);
  return worst ? worst->margin : std::nullopt;
}

}  // namespace bw
