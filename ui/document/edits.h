// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/document/project_document.h"

namespace bw {
struct Precaution;
struct Remedy;
}

namespace bw {
struct MachineUpdate;
struct ShopFacts;
struct ShopMachine;
}  // namespace bw

/// Everything a person can do to a project: one function, one undo step. Settings are those of the step shown.
namespace bw::edits {

void rename(ProjectDocument& document, const std::string& name);

// The part
void setSubstrate(ProjectDocument& document, const std::string& id);
void setPartThickness(ProjectDocument& document, Range thickness_m, KnownFrom from, EditKind kind = EditKind::Whole);
void setPartWidth(ProjectDocument& document, double width_m, EditKind kind = EditKind::Whole);
void setPartHeight(ProjectDocument& document, double height_m, EditKind kind = EditKind::Whole);
void setFinish(ProjectDocument& document, Finish finish);
void setBehind(ProjectDocument& document, std::vector<Behind> behind);
void setStartTemperature(ProjectDocument& document, double temperature_C, EditKind kind = EditKind::Whole);
void setLimit(ProjectDocument& document, const std::string& name, std::optional<double> limit_C, EditKind kind = EditKind::Whole);
/// Room, people, extraction of the plan shown, prices; `text` names what was changed.
void setShop(ProjectDocument& document, const QString& text, const ShopFacts& facts, EditKind kind = EditKind::Whole);
void setAreas(ProjectDocument& document, const QString& text, std::vector<Area> areas);

// The coat, top layer first
void addLayer(ProjectDocument& document, std::size_t at, Layer layer);
void removeLayer(ProjectDocument& document, std::size_t index);
void moveLayer(ProjectDocument& document, std::size_t from, std::size_t to);
void renameLayer(ProjectDocument& document, std::size_t index, const std::string& name);
void setLayerCoating(ProjectDocument& document, std::size_t index, const std::string& coating);
void setLayerThickness(ProjectDocument& document, std::size_t index, Range thickness_m, KnownFrom from, EditKind kind = EditKind::Whole);
/// Nobody knows it: the coating's typical range stands in.
void setLayerThicknessUnknown(ProjectDocument& document, std::size_t index, const Library& shipped);
void setLayerKept(ProjectDocument& document, std::size_t index, bool keep);
/// What a test of the layer showed, by component; those not named stay as they are.
void setLayerComponents(ProjectDocument& document, std::size_t index, const std::map<std::string, Presence>& found);

// The settings
void setSetting(ProjectDocument& document, double Settings::*field, const QString& text, double value, EditKind kind = EditKind::Whole);
void setPasses(ProjectDocument& document, int passes, EditKind kind = EditKind::Whole);
void setOscillationRate(ProjectDocument& document, double rate_Hz, EditKind kind = EditKind::Whole);
/// A swinging pattern without a rate gets one: as many swings a second as its lines went to and fro.
void setPattern(ProjectDocument& document, Pattern pattern);
void setOneWay(ProjectDocument& document, bool oneWay);
void setBeamOffInTurns(ProjectDocument& document, bool off);
void setSwathOrder(ProjectDocument& document, SwathOrder order);
/// Of the plan's hand; nothing where nobody knows.
void setSpeedWander(ProjectDocument& document, std::optional<double> wander, EditKind kind = EditKind::Whole);
/// All settings at once; `label` names what was done ("Wait 90 s between passes").
void applySettings(ProjectDocument& document, const QString& label, const Settings& settings);
/// The same on another machine of the project, in one step. An empty or the same `machine` leaves the machine as it is.
void applyOnMachine(ProjectDocument& document, const QString& label, const std::string& machine, const Settings& settings);
/// Takes a remedy: shows the step that it is for and changes that one.
void applyRemedy(ProjectDocument& document, const Remedy& remedy);
/// Puts another plan in the place of the shown one and takes in the machines it needs, in one step.
void applyPlan(ProjectDocument& document, const QString& label, const std::vector<Machine>& newMachines, Plan plan);
/// Takes a machine into the project and chooses it, in one step.
void addMachine(ProjectDocument& document, const Machine& machine);
void chooseMachine(ProjectDocument& document, const std::string& id);
/// The same of the shop's machines: chooses the project's copy of the card, or copies it, in one step.
void takeMachine(ProjectDocument& document, const ShopMachine& card);
/// Brings the project's copy of a card up to date, or keeps it as it is and asks no more about that version of the card.
void updateMachine(ProjectDocument& document, const MachineUpdate& update);
void declineUpdate(ProjectDocument& document, const MachineUpdate& update);

// Before the beam is on
void settlePrecaution(ProjectDocument& document, const Precaution& precaution, const Clearance& by);
/// Of a test: what it showed is noted in the layers it was open for.
void settleTest(ProjectDocument& document, const Precaution& test, Presence found, const Clearance& by, const Library& shipped);
/// Takes the name away again; of a test what it showed as well.
void reopenPrecaution(ProjectDocument& document, const Precaution& precaution);

// The plans
void duplicatePlan(ProjectDocument& document);
void renamePlan(ProjectDocument& document, const std::string& name);
void removePlan(ProjectDocument& document);

}  // namespace bw::edits
