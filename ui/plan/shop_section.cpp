// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plan/shop_section.h"

#include "ui/document/edits.h"
#include "ui/plan/form.h"
#include "ui/plan/shop_form.h"
#include "ui/style/theme.h"

#include <QToolButton>
#include <QVBoxLayout>

namespace bw {
namespace {

QString airSentence(const Site& site) {
  const QString air = withUnit(site.ambient_C.value_or(0), quantities::temperature);
  if (!site.humidity) return ShopSection::tr("Air %1.").arg(air);
  return ShopSection::tr("Air %1, humidity %2.").arg(air, withUnit(*site.humidity, quantities::share));
}

QString extractionSentence(const Extraction& extraction) {
  if (!extraction.on) return ShopSection::tr("No extraction planned.");
  if (!extraction.flow_m3_s) return ShopSection::tr("Extraction planned.");
  return ShopSection::tr("Extraction %1.").arg(withUnit(*extraction.flow_m3_s, quantities::airFlow));
}

QString peopleSentence(const Site& site) {
  if (!site.people) return ShopSection::tr("People not entered.");
  const int people = static_cast<int>(*site.people);
  const QString there = people == 1 ? ShopSection::tr("One person") : ShopSection::tr("%1 people").arg(people);
  if (!site.eyewear) return ShopSection::tr("%1, eyewear not entered.").arg(there);
  return ShopSection::tr("%1, eyewear for %2.").arg(there).arg(static_cast<int>(*site.eyewear));
}

}  // namespace

QString shopSentence(const Project& project, const Plan& plan) {
  const ShopFacts facts = shopOf(project, plan);
  return QStringList{airSentence(facts.site), extractionSentence(facts.extraction), peopleSentence(facts.site)}.join(QLatin1Char(' '));
}

ShopSection::ShopSection(ProjectDocument& document, QWidget* parent)
    : QWidget(parent), m_document(document), m_sentence(new QLabel), m_form(new ShopForm(ShopForm::Of::Project)) {
  QToolButton* edit = makeFoldButton(QStringLiteral("editShop"), tr("Edit"));
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(space::small);
  column->addWidget(new SectionHeader(tr("Room, people, price"), edit));
  m_sentence->setWordWrap(true);
  m_sentence->setObjectName(QStringLiteral("shopSentence"));
  column->addWidget(m_sentence);
  column->addWidget(m_form);
  m_form->hide();
  connect(edit, &QToolButton::toggled, this, [this](bool open) {
    m_form->setVisible(open);
    if (open) emit unfolded();
  });
  connect(m_form, &ShopForm::edited, this,
          [this](const ShopFacts& facts, const QString& text, EditKind kind) { edits::setShop(m_document, text, facts, kind); });
  connect(&m_document, &ProjectDocument::changed, this, &ShopSection::refresh);
  refresh(Change::Everything);
}

void ShopSection::refresh(Changes changes) {
  if (!(changes & (Change::Shop | Change::Part | Change::Plans | Change::Shown))) return;
  m_form->setFacts(shopOf(m_document.project(), m_document.plan()));
  m_sentence->setText(shopSentence(m_document.project(), m_document.plan()));
}

}  // namespace bw
