// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/work.h"

namespace bw {

void assessJob(Work& work, Assessment& assessment) {
  for (const Area& area : work.project.part.areas) assessment.job.area_m2 += area.area_m2 * area.count.value_or(1);
}

}  // namespace bw
