// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/layer_test_button.h"

#include "core/files/library_file.h"
#include "core/materials/resolve.h"
#include "core/values/unusable.h"
#include "ui/document/edits.h"

#include <QActionGroup>
#include <QMenu>

namespace bw {
namespace {

struct ComponentWord {
  const char* key;
  const char* word;
};

constexpr ComponentWord componentWords[] = {{"lead", QT_TRANSLATE_NOOP("LayerTestButton", "lead")},
                                            {"chromate", QT_TRANSLATE_NOOP("LayerTestButton", "chromate")},
                                            {"cadmium", QT_TRANSLATE_NOOP("LayerTestButton", "cadmium")},
                                            {"zinc", QT_TRANSLATE_NOOP("LayerTestButton", "zinc")},
                                            {"pvc", QT_TRANSLATE_NOOP("LayerTestButton", "PVC")},
                                            {"asbestos", QT_TRANSLATE_NOOP("LayerTestButton", "asbestos")},
                                            {"pcb", QT_TRANSLATE_NOOP("LayerTestButton", "PCB")},
                                            {"isocyanate", QT_TRANSLATE_NOOP("LayerTestButton", "isocyanates")},
                                            {"fluoropolymer", QT_TRANSLATE_NOOP("LayerTestButton", "fluoropolymer")},
                                            {"pah", QT_TRANSLATE_NOOP("LayerTestButton", "tar")}};

std::map<std::string, Presence> knownOf(const Project& project, const Layer& layer) {
  try {
    return resolveLayer(layer, project.library, shippedLibrary()).components;
  } catch (const Unusable&) {
    return layer.components;
  }
}

QString listed(const std::map<std::string, Presence>& known, Presence presence) {
  QStringList words;
  for (const char* component : componentKeys) {
    const auto found = known.find(component);
    if (found != known.end() && found->second == presence) words << componentWord(component);
  }
  return words.join(QStringLiteral(", "));
}

QString summaryOf(const std::map<std::string, Presence>& known) {
  const QString found = listed(known, Presence::Yes), open = listed(known, Presence::Unknown);
  if (!found.isEmpty() && !open.isEmpty()) return LayerTestButton::tr("Holds %1; not tested: %2").arg(found, open);
  if (!found.isEmpty()) return LayerTestButton::tr("Holds %1").arg(found);
  if (!open.isEmpty()) return LayerTestButton::tr("Not tested: %1").arg(open);
  return LayerTestButton::tr("Nothing harmful known");
}

}  // namespace

QString componentWord(const std::string& component) {
  for (const ComponentWord& entry : componentWords) {
    if (component == entry.key) return LayerTestButton::tr(entry.word);
  }
  return QString::fromStdString(component);
}

LayerTestButton::LayerTestButton(ProjectDocument& document, std::size_t layer, QWidget* parent)
    : QPushButton(parent), m_document(document), m_layer(layer) {
  setObjectName(QStringLiteral("layerTest"));
  setProperty("boxed", true);
  setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);
  auto* answers = new QMenu(this);
  setMenu(answers);
  connect(answers, &QMenu::aboutToShow, this, &LayerTestButton::fillMenu);
}

void LayerTestButton::refresh() {
  if (m_layer >= m_document.project().coat.size()) return;
  m_known = knownOf(m_document.project(), m_document.project().coat[m_layer]);
  const QString summary = summaryOf(m_known);
  setText(QChar(0x2002) + summary);  // a style sheet's padding does not reach left-aligned text
  setAccessibleName(tr("Harmful substances"));
  setAccessibleDescription(summary);
  setToolTip(tr("%1. What a test of this layer showed can be entered here.").arg(summary));
}

/// What the coating may hold comes first; the rest can be added.
void LayerTestButton::fillMenu() {
  qDeleteAll(menu()->findChildren<QMenu*>(Qt::FindDirectChildrenOnly));
  menu()->clear();
  std::map<std::string, Presence> cleared;
  for (const auto& [component, presence] : m_known) {
    if (presence == Presence::Unknown) cleared[component] = Presence::No;
  }
  QAction* none = menu()->addAction(tr("Tested: none of them found"), this,
                                    [this, cleared] { edits::setLayerComponents(m_document, m_layer, cleared); });
  none->setObjectName(QStringLiteral("testedNone"));
  none->setEnabled(!cleared.empty());
  menu()->addSeparator();
  for (const char* component : componentKeys) {
    if (m_known.contains(component)) addComponent(component, m_known.at(component));
  }
  menu()->addSeparator();
  for (const char* component : componentKeys) {
    if (!m_known.contains(component)) addComponent(component, std::nullopt);
  }
}

void LayerTestButton::addComponent(const std::string& component, std::optional<Presence> known) {
  QMenu* answers = menu()->addMenu(componentWord(component));
  auto* group = new QActionGroup(answers);
  const std::pair<Presence, QString> words[] = {
      {Presence::Unknown, tr("not tested")}, {Presence::Yes, tr("found")}, {Presence::No, tr("not in it")}};
  for (const auto& [answer, word] : words) {
    QAction* action = answers->addAction(word, this, [this, component, answer = answer] {
      edits::setLayerComponents(m_document, m_layer, {{component, answer}});
    });
    action->setCheckable(true);
    action->setChecked(answer == known);
    group->addAction(action);
  }
}

}  // namespace bw
