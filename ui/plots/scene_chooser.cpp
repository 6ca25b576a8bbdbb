// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/scene_chooser.h"

#include "ui/fields/chooser.h"
#include "ui/fields/quantity_field.h"
#include "ui/style/theme.h"

#include <QHBoxLayout>
#include <QLineEdit>

namespace bw {

namespace {

struct SceneWords {
  Scene scene;
  const char* name;
  const char* tip;
};

constexpr SceneWords words[] = {
    {Scene::Endless, QT_TRANSLATE_NOOP("SceneChooser", "middle of the area"),
     QT_TRANSLATE_NOOP("SceneChooser", "Far from every border, swath beside swath: what all the numbers mean.")},
    {Scene::OneSwath, QT_TRANSLATE_NOOP("SceneChooser", "one swath alone"),
     QT_TRANSLATE_NOOP("SceneChooser", "A single long travel of the hand without neighbours.")},
    {Scene::StrokeStart, QT_TRANSLATE_NOOP("SceneChooser", "start of a stroke"),
     QT_TRANSLATE_NOOP("SceneChooser", "Where the hand begins to move and the beam comes on, with the swaths beside it.")},
    {Scene::StrokeEnd, QT_TRANSLATE_NOOP("SceneChooser", "end of a stroke"),
     QT_TRANSLATE_NOOP("SceneChooser", "Where the hand stops and the beam goes off, with the swaths beside it.")},
    {Scene::StillHand, QT_TRANSLATE_NOOP("SceneChooser", "still hand"),
     QT_TRANSLATE_NOOP("SceneChooser", "The beam is on for a while and the hand does not move.")},
    {Scene::Corner, QT_TRANSLATE_NOOP("SceneChooser", "corner of the area"),
     QT_TRANSLATE_NOOP("SceneChooser", "The first swath and where it starts.")},
};

QString idOf(Scene scene) { return QString::number(static_cast<int>(scene)); }

}  // namespace

SceneChooser::SceneChooser(QWidget* parent)
    : QWidget(parent),
      m_scene(new Chooser(tr("Part of the work shown"), tr("Which part of the work the dose map shows."))),
      m_still(new QuantityField(
          {tr("Time standing still"), tr("How long the beam is on while the hand stands still."), quantities::duration, 0.001, 60, 0.1})) {
  m_scene->setObjectName(QStringLiteral("scene"));
  m_scene->setProperty("flat", true);
  m_scene->setMinimumContentsLength(15);
  for (const SceneWords& entry : words) m_scene->add(idOf(entry.scene), tr(entry.name), tr(entry.tip));
  m_still->setObjectName(QStringLiteral("stillTime"));
  m_still->setValue(m_request.still_s);
  m_still->edit()->setFixedWidth(68);
  if (auto* problem = m_still->findChild<QWidget*>(QStringLiteral("problem"))) problem->setMinimumWidth(160);
  m_still->hide();
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(space::small);
  row->addWidget(m_scene, 0, Qt::AlignTop);
  row->addWidget(m_still, 0, Qt::AlignTop);
  connect(m_scene, &Chooser::chosen, this, [this](const QString& id) { choose({static_cast<Scene>(id.toInt()), m_request.still_s}); });
  connect(m_still, &QuantityField::edited, this, [this](const Range& time) { choose({m_request.scene, time.likely}); });
}

void SceneChooser::choose(const SceneRequest& request) {
  if (request == m_request) return;
  m_request = request;
  m_still->setVisible(request.scene == Scene::StillHand);
  emit chosen();
}

}  // namespace bw
