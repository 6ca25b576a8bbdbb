// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/assess/ranges_result.h"
#include "core/assess/verdict_result.h"
#include "core/beam/beam_result.h"
#include "core/dose/dose_map.h"
#include "core/dose/dose_result.h"
#include "core/heat/heat_result.h"
#include "core/job/job_result.h"
#include "core/removal/removal_result.h"
#include "core/scan/scan_result.h"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace bw {

struct DabRow;
struct Physics;
struct Place;

/// Everything that is known about one plan: numbers, curves, map and remarks. A plain value, SI units.
struct Assessment {
  std::string plan;
  std::string machine;
  bool doseOnly = false;  // told early: only beam, scan and dose are there, and what of the verdict follows from them
  BeamResult beam;
  OverlapResult overlap;
  std::optional<DoseResult> dose;  // nothing where the hand stands still, or where there is too much to compute
  std::string whyNoDose;           // then: why, and what would do
  std::shared_ptr<const DoseMap> map;
  std::shared_ptr<const DoseMap> stillMap;  // one frame by a still hand, where travel is 0
  SceneRequest scene;
  std::shared_ptr<const DoseMap> sceneMap;  // across from the swath's middle, along from where the hand starts or ends; see Scene
  SwathProfile profile;
  std::shared_ptr<const std::vector<DabRow>> rows;  // of one frame, on the part
  std::vector<PathPoint> path;
  RemovalResult removal;
  ThermalResult thermal;
  FinishResult finish;
  JobResult job;
  AirResult air;
  EyesResult eyes;
  std::vector<Precaution> precautions;               // stops first
  std::shared_ptr<const std::vector<Place>> places;  // where removal was followed, with the hits of one pass
  std::shared_ptr<const Physics> physics;            // what a look in depth goes on from
  std::optional<Ranges> ranges;                      // found in depth
  bool drawsTooLong = false;                         // and not there for that reason
  std::vector<VerdictRow> verdict;
  std::vector<FindOutNext> findOutNext;
  std::vector<Working> workings;
  std::string answer;              // the one sentence of the answer line
  std::vector<std::string> notes;  // what the model left out or cannot vouch for here
  std::size_t stageNotes = static_cast<std::size_t>(-1);  // how many of them the stages made, the rest are the model's own
};

/// Version of the model, raised whenever a number may come out differently.
inline constexpr const char* modelVersion = "12";

}  // namespace bw
