// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assess/verdict_rows.h"
#include "core/text/text.h"

namespace bw {

namespace {

using namespace text;

std::string moneyText(double amount, const std::string& currency) { return number(amount) + (currency.empty() ? "" : " " + currency); }

/// "solvent or paint stripper, 34 min of work and 60 min of waiting, 9.6 EUR".
std::string wayText(const OtherWay& way, const std::string& currency) {
  std::string text = way.name + ", " + duration(way.work_s) + " of work";
  if (way.wait_s > 0) text += " and " + duration(way.wait_s) + " of waiting";
  return way.cost ? text + ", " + moneyText(*way.cost, currency) : text;
}

/// What the plan takes with the passes it needs, or with those planned where that is more.
JobNeeds longer(const JobResult& job) {
  const JobNeeds planned{*job.beamTime_s, *job.totalTime_s, job.cost};
  return job.needed && job.needed->totalTime_s > planned.totalTime_s ? *job.needed : planned;
}

std::string planText(const JobResult& job, const std::string& currency) {
  const JobNeeds needs = longer(job);
  const bool more = needs.totalTime_s > *job.totalTime_s;
  const std::string amount = duration(needs.totalTime_s) + (needs.cost ? ", " + moneyText(*needs.cost, currency) : "");
  return (more ? " This plan with the passes it needs: " : " This plan: ") + amount + ".";
}

}  // namespace

std::string otherWayText(const JobResult& job, const std::string& currency, bool planFails) {
  if (job.otherWays.empty() || !job.totalTime_s) return "";
  const OtherWay& way = job.otherWays.front();
  const double clearly = planFails ? 1 : 1.5;  // so rough are the figures; a plan that does not do has no say
  const bool cheaper = clearly * way.work_s < longer(job).totalTime_s;
  if (!planFails && !cheaper) return "";
  return (cheaper ? " Another way is cheaper: " : " Another way: ") + wayText(way, currency) + " (common practice, no source; it " +
         way.drawback + ")." + planText(job, currency);
}

}  // namespace bw
