// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/own/own_shop.h"

#include "tests/support/catch.h"

namespace bw::test {
namespace {

int heard = 0;
QtMessageHandler before = nullptr;

void listen(QtMsgType type, const QMessageLogContext& context, const QString& text) {
  if (QLatin1String(context.category) == QLatin1String("qt.modeltest")) ++heard;
  if (before) before(type, context, text);
}

template <class Work>
void attempt(const OwnActions::Answer& answer, Work work) {
  try {
    work();
    answer({});
  } catch (const LibraryError& error) {
    answer(QString::fromUtf8(error.what()));
  }
}

}  // namespace

OwnShop::OwnShop() : m_page(std::make_unique<OwnPage>(m_asker, actions())) {
  open();
  m_page->setToday(QStringLiteral("2026-03-20"));
  show();
}

void OwnShop::open() {
  LibraryOptions options;
  options.shippedMaterials = m_materials;
  options.shippedMachines = m_machines;
  m_store.reset();
  m_store = std::make_unique<LibraryStore>(m_folder / "library.sqlite", options);
}

void OwnShop::update(const std::function<void(Library&, std::vector<Machine>&)>& change) {
  change(m_materials, m_machines);
  open();
  show();
}

OwnedThings OwnShop::things() {
  return {m_store->machines(), m_store->coatings(), m_store->substrates(), m_store->shippedChanges(), m_store->shop(),
          m_materials,         m_machines,          m_store->readOnly()};
}

void OwnShop::show() { m_page->setThings(things()); }

OwnActions OwnShop::actions() {
  OwnActions actions;
  const auto done = [this](const OwnActions::Answer& answer, const std::function<void()>& work) {
    if (!refuse.isEmpty()) return answer(std::exchange(refuse, {}));
    attempt(answer, work);
    show();
  };
  actions.save = [this, done](const OwnEntry& entry, int revision, const OwnActions::Answer& answer) {
    done(answer, [&] {
      if (const auto* coating = std::get_if<Coating>(&entry))
        m_store->saveCoating(*coating, revision);
      else if (const auto* substrate = std::get_if<Substrate>(&entry))
        m_store->saveSubstrate(*substrate, revision);
      else
        m_store->saveMachine(std::get<MachineCard>(entry), revision);
    });
  };
  actions.reset = [this, done](EntryKind kind, const std::string& id, const OwnActions::Answer& answer) {
    done(answer, [&] { m_store->resetEntry(kind, id); });
  };
  actions.keepOwn = [this, done](EntryKind kind, const std::string& id, const OwnActions::Answer& answer) {
    done(answer, [&] { m_store->keepOwn(kind, id); });
  };
  actions.saveShop = [this, done](const ShopFacts& facts, const OwnActions::Answer& answer) {
    done(answer, [&] { m_store->saveShop(facts); });
  };
  return actions;
}

MachineCard shedMachine() {
  MachineCard card;
  card.machine = machineLike(MachineKind::Pulsed, 300, 120e-6);
  card.machine.id = "shed-300";
  card.machine.name = "Shed cart, 300 W";
  card.machine.maxPulseEnergy_J = {0.9e-3, 1.5e-3, 2e-3, 2.4e-3};
  card.machine.deliveredPower_W = 262;
  card.machine.checkedOn = "2025-11-02";
  Optic wide, narrow;
  wide.id = "wide";
  wide.focalLength_m = 0.254;
  wide.standOff_m = 0.24;
  narrow.id = "narrow";
  narrow.focalLength_m = 0.16;
  narrow.spotDiameter_m = 80e-6;
  narrow.tipWidth_m = 0.02;
  card.machine.optics = {wide, narrow};
  card.note = "Lives in the carriage shed; cold in winter.";
  card.coverGlass_s = 41 * 3600;
  card.coverGlassSince = "2026-01-10";
  card.pieces = {{"cover glass in the drawer", "", 3, {}}, {"corner tip", "", 1, {}}};
  card.checks = {{"2025-08-15", "mk", 271.0, 121e-6, "", {}}, {"2025-11-02", "hs", 262.0, 124e-6, "after the new hose", {}}};
  return card;
}

// Liu's law for a spot of 133 um and 20 W, read to the nearest 2 um.
QString marksBlock() {
  return QStringLiteral(
      "offset\tpower\tspeed\tenergy\twidth\n\t30\t\t\t60\n\t45\t\t\t84\n\t70\t\t\t106\n\t110\t\t\t122\n\t180\t\t\t140\n\t290\t\t\t154\n\t15"
      "\t\t\t0");
}
QString ratesBlock() {
  return QStringLiteral("180\t20\t36.1\n180\t40\t72.4\n180\t80\t144\n180\t120\t215\n180\t160\t259\n180\t240\t263\n180\t400\t262");
}
QString powersBlock() { return QStringLiteral("25\t64\t\t69\n50\t130\t\t139\n75\t196\t\t209\n100\t259\t\t278"); }
QString timesBlock() { return QStringLiteral("20\t9000\t140\t354.9\n40\t9000\t140\t666\n60\t9000\t140\t976.4"); }
QString frameBlock() { return QStringLiteral("width\t20\t19.7\nwidth\t40\t39.3\nwidth\t60\t58.9\nheight\t10\t9.9\nheight\t30\t29.8"); }

ModelWatch::ModelWatch() {
  heard = 0;
  before = qInstallMessageHandler(listen);
}
ModelWatch::~ModelWatch() { qInstallMessageHandler(before); }
int ModelWatch::complaints() const { return heard; }

}  // namespace bw::test
