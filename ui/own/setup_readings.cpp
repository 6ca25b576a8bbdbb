// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/own/setup_readings.h"

#include <algorithm>

namespace bw {
namespace {

// Wider than any machine: they catch a slipped decimal point or unit.
constexpr double mostPower_W = 1e5;
constexpr double mostWidth_m = 0.1;
constexpr double mostSize_m = 10;
constexpr double mostSpeed_m_s = 1e3;

const Quantity micrometres{{quantities::micrometre, {QStringLiteral("um"), 1e-6}, quantities::millimetre}, 5};
const Quantity millijoules{
    {{QStringLiteral("mJ"), 1e-3}, {QStringLiteral("µJ"), 1e-6}, {QStringLiteral("uJ"), 1e-6}, {QStringLiteral("J"), 1}}, 5};
const Quantity millimetresPerSecond{{{QStringLiteral("mm/s"), 1e-3}, {QStringLiteral("m/s"), 1}}, 5};
const Quantity milliseconds{{{QStringLiteral("ms"), 1e-3}, {QStringLiteral("s"), 1}}, 5};

ReadingColumn plusMinus(const QString& unit, const Quantity& quantity, double most) {
  return {SetupReadings::tr("± %1").arg(unit),
          SetupReadings::tr("Half the span that holds nine in ten such readings; empty: the scatter of the readings tells."),
          quantity,
          0,
          most,
          true};
}

std::vector<ReadingColumn> marksColumns() {
  return {{SetupReadings::tr("Focus offset, mm"), SetupReadings::tr("Empty is 0, in focus."), quantities::length, -1, 1},
          {SetupReadings::tr("Power, W"), SetupReadings::tr("Mean power; for lines."), quantities::power, 0, mostPower_W, true},
          {SetupReadings::tr("Speed, mm/s"), SetupReadings::tr("Of the line; empty where it was the same for all."), millimetresPerSecond,
           0, mostSpeed_m_s, true},
          {SetupReadings::tr("Pulse energy, mJ"), SetupReadings::tr("For spots by one pulse, instead of power and speed."), millijoules, 0,
           1000, true},
          {SetupReadings::tr("Width, µm"), SetupReadings::tr("Of the line, or diameter of the spot; 0 where no mark was left."),
           micrometres, 0, mostWidth_m, false, true},
          plusMinus(SetupReadings::tr("µm"), micrometres, mostWidth_m)};
}

std::vector<ReadingColumn> frameColumns() {
  return {{SetupReadings::tr("Direction"),
           SetupReadings::tr("Width runs along the lines."),
           quantities::count,
           0,
           0,
           false,
           true,
           false,
           {SetupReadings::tr("width"), SetupReadings::tr("height")}},
          {SetupReadings::tr("Dialled, mm"), SetupReadings::tr("As set at the machine."), quantities::length, 0, mostSize_m, true, true},
          {SetupReadings::tr("Lit, mm"), SetupReadings::tr("As measured on the mark."), quantities::length, 0, mostSize_m, true, true},
          plusMinus(SetupReadings::tr("mm"), quantities::length, mostSize_m)};
}

std::vector<ReadingColumn> timesColumns() {
  return {
      {SetupReadings::tr("Line length, mm"), SetupReadings::tr("Dialled width of the frame."), quantities::length, 0, mostSize_m, true,
       true},
      {SetupReadings::tr("Speed, mm/s"), SetupReadings::tr("Dialled scan speed."), millimetresPerSecond, 0, mostSpeed_m_s, true, true},
      {SetupReadings::tr("Lines"), SetupReadings::tr("In one frame, counted or dialled."), quantities::count, 1, 1e6, false, true, true},
      {SetupReadings::tr("Frame time, ms"), SetupReadings::tr("One frame, or many divided by their number."), milliseconds, 0, 1e4, true,
       true},
      plusMinus(SetupReadings::tr("ms"), milliseconds, 1e4),
      {SetupReadings::tr("One way"),
       SetupReadings::tr("Yes where every line is drawn from the same side."),
       quantities::count,
       0,
       0,
       false,
       false,
       false,
       {SetupReadings::tr("no"), SetupReadings::tr("yes")}}};
}

std::vector<ReadingColumn> powersColumns() {
  return {{SetupReadings::tr("Dialled, %"), SetupReadings::tr("Of the rated power."), quantities::share, 0, 1, true, true},
          {SetupReadings::tr("At the part, W"), SetupReadings::tr("Mean power behind the last glass."), quantities::power, 0, mostPower_W,
           true, true},
          plusMinus(SetupReadings::tr("W"), quantities::power, mostPower_W),
          {SetupReadings::tr("Before the optics, W"), SetupReadings::tr("With the same meter; tells what the optics lose."),
           quantities::power, 0, mostPower_W, true}};
}

std::vector<ReadingColumn> ratesColumns() {
  return {{SetupReadings::tr("Pulse duration, ns"), SetupReadings::tr("Empty where the machine has one."), quantities::pulseDuration, 0, 1,
           true},
          {SetupReadings::tr("Rate, kHz"), SetupReadings::tr("Repetition rate."), quantities::frequency, 0, 1e8, true, true},
          {SetupReadings::tr("Power, W"), SetupReadings::tr("Mean power at full setting."), quantities::power, 0, mostPower_W, true, true},
          plusMinus(SetupReadings::tr("W"), quantities::power, mostPower_W)};
}

}  // namespace

SetupReadings::SetupReadings(QObject* parent) : QObject(parent) {
  const std::array<std::vector<ReadingColumn>, KindCount> columns{marksColumns(), frameColumns(), timesColumns(), powersColumns(),
                                                                  ratesColumns()};
  for (std::size_t i = 0; i < KindCount; ++i) {
    m_tables[i] = new ReadingsModel(columns[i], this);
    connect(m_tables[i], &ReadingsModel::edited, this, &SetupReadings::edited);
  }
}

QString SetupReadings::nameOf(Kind kind) {
  const QStringList names{SetupReadings::tr("Marks"), SetupReadings::tr("Lit frame"), SetupReadings::tr("Frame time"),
                          SetupReadings::tr("Power"), SetupReadings::tr("Power by rate")};
  return names[kind];
}

QString SetupReadings::howTo(Kind kind) {
  const QStringList texts{
      SetupReadings::tr("Draw single lines on burn paper, or spots on foil, at six powers or more, down to where the mark ends; measure "
                        "each width with a "
                        "loupe. Marks at four focus offsets or more also tell the beam quality."),
      SetupReadings::tr("Light the frame on burn paper at three settings or more and measure what is lit from edge to edge."),
      SetupReadings::tr("Time frames of different widths at one scan speed: a phone's film, or a hundred frames with a watch."),
      SetupReadings::tr("Hold a power meter where the part would be; wait for the reading to settle at each setting."),
      SetupReadings::tr(
          "Full setting, one pulse duration, six rates or more from the lowest on: where the power stops growing, a pulse carries less.")};
  return texts[kind];
}

bool SetupReadings::isEmpty() const { return std::ranges::all_of(m_tables, &ReadingsModel::isEmpty); }

Measurements SetupReadings::measurements() const {
  Measurements found;
  addMarks(found);
  addFrame(found);
  addTimes(found);
  addPowers(found);
  addRates(found);
  return found;
}

Measured SetupReadings::measured(const ReadingsModel& table, int row, int value, int uncertainty) const {
  return {table.number(row, value).value_or(0), table.number(row, uncertainty)};
}

void SetupReadings::addMarks(Measurements& found) const {
  const ReadingsModel& table = *m_tables[Marks];
  for (const int row : table.goodRows()) {
    const double offset_m = table.number(row, 0).value_or(0);
    auto series = std::ranges::find(found.marks, offset_m, &MarkSeries::focusOffset_m);
    if (series == found.marks.end()) series = found.marks.insert(series, {offset_m, {}});
    series->marks.push_back({table.number(row, 3), table.number(row, 1), table.number(row, 2), measured(table, row, 4, 5)});
  }
}

void SetupReadings::addFrame(Measurements& found) const {
  const ReadingsModel& table = *m_tables[Frame];
  for (const int row : table.goodRows()) {
    auto& list = table.word(row, 0) == SetupReadings::tr("height") ? found.heights : found.widths;
    list.push_back({*table.number(row, 1), measured(table, row, 2, 3)});
  }
}

void SetupReadings::addTimes(Measurements& found) const {
  const ReadingsModel& table = *m_tables[Times];
  for (const int row : table.goodRows()) {
    found.frameTimes.push_back({*table.number(row, 0),
                                *table.number(row, 1),
                                static_cast<int>(*table.number(row, 2)),
                                table.number(row, 3),
                                table.number(row, 4),
                                {},
                                table.word(row, 5) == SetupReadings::tr("yes")});
  }
}

void SetupReadings::addPowers(Measurements& found) const {
  const ReadingsModel& table = *m_tables[Powers];
  for (const int row : table.goodRows()) found.powers.push_back({*table.number(row, 0), measured(table, row, 1, 2), table.number(row, 3)});
}

void SetupReadings::addRates(Measurements& found) const {
  const ReadingsModel& table = *m_tables[Rates];
  for (const int row : table.goodRows()) {
    const std::optional<double> duration_s = table.number(row, 0);
    auto series = std::ranges::find(found.rates, duration_s, &RateSeries::pulseDuration_s);
    if (series == found.rates.end()) series = found.rates.insert(series, {duration_s, {}});
    series->readings.push_back({*table.number(row, 1), measured(table, row, 2, 3)});
  }
}

}  // namespace bw
