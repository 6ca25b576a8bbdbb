// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/readings/preview_view.h"

#include "ui/readings/column_head.h"
#include "ui/readings/head_row.h"
#include "ui/readings/preview_model.h"
#include "ui/style/theme.h"

#include <QComboBox>
#include <QPainter>
#include <QStyledItemDelegate>

#include <algorithm>

namespace bw {
namespace {

constexpr int widthOfColumn = 208;

/// The cell as it stands, and beneath it, quieter, what it was understood as.
class TwoLines : public QStyledItemDelegate {
 public:
  using QStyledItemDelegate::QStyledItemDelegate;

  QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex&) const override {
    return {widthOfColumn, 2 * option.fontMetrics.lineSpacing() + space::small};
  }

  void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override {
    const Tones tones = tonesOf(option.palette);
    const bool chosen = option.state & QStyle::State_Selected;
    painter->save();
    painter->fillRect(option.rect, chosen ? option.palette.color(QPalette::AlternateBase) : tones.sheet);
    painter->setPen(tones.line);
    painter->drawLine(option.rect.bottomLeft(), option.rect.bottomRight());
    if (index.data(PreviewModel::UnreadRole).toBool())
      painter->fillRect(QRect(option.rect.topLeft(), QSize(space::edgeStripe, option.rect.height())),
                        stateColour(Status::Near, option.palette));
    const QString understood = index.data(PreviewModel::UnderstoodRole).toString();
    const QRect box = option.rect.adjusted(space::edgeStripe + space::small, space::hair, -space::small, -space::hair);
    const auto line = [&](const QString& text, const QColor& colour, const QRect& where) {
      painter->setPen(colour);
      painter->drawText(where, Qt::AlignLeft | Qt::AlignVCenter, option.fontMetrics.elidedText(text, Qt::ElideRight, where.width()));
    };
    const QString raw = index.data().toString().simplified();
    if (understood.isEmpty()) {
      line(raw, tones.quiet, box);
    } else {
      const int half = box.height() / 2;
      line(raw, tones.ink, QRect(box.left(), box.top(), box.width(), half));
      line(understood, tones.quiet, QRect(box.left(), box.top() + half, box.width(), half));
    }
    if (option.state & QStyle::State_HasFocus) {
      painter->setPen(tones.accent);
      painter->drawRect(option.rect.adjusted(0, 0, -1, -1));
    }
    painter->restore();
  }
};

}  // namespace

PreviewView::PreviewView(QWidget* parent) : QTableView(parent), m_preview(new PreviewModel(this)), m_head(new HeadRow(this)) {
  setObjectName(QStringLiteral("csvPreview"));
  setAccessibleName(tr("The file's first rows"));
  setModel(m_preview);
  setHorizontalHeader(m_head);
  m_head->setDefaultSectionSize(widthOfColumn);
  setItemDelegate(new TwoLines(this));
  setEditTriggers(QAbstractItemView::NoEditTriggers);
  setTabKeyNavigation(false);
  setShowGrid(false);
  setCornerButtonEnabled(false);
  m_head->setStretchLastSection(true);
  setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
  verticalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
}

void PreviewView::setStudy(const CsvStudy& study) {
  const bool same = m_table == study.table && m_heads.size() == study.columns.size();
  m_table = study.table;
  m_columns = study.columns;
  m_preview->setStudy(study);
  if (!same) return makeHeads();
  for (std::size_t i = 0; i < m_heads.size(); ++i) m_heads[i]->setColumn(m_columns[i]);
}

void PreviewView::makeHeads() {
  m_heads.clear();
  std::vector<QWidget*> widgets;
  for (std::size_t i = 0; i < m_columns.size(); ++i) {
    auto* head = new ColumnHead(static_cast<int>(i), m_columns[i]);
    connect(head, &ColumnHead::meaningChosen, this, [this, i](ColumnMeaning meaning, const std::string& kind) {
      std::vector<ColumnMapping> columns = m_columns;
      chooseMeaning(columns, i, meaning, kind);
      take(std::move(columns));
    });
    connect(head, &ColumnHead::unitChosen, this, [this, i](CsvUnit unit) {
      std::vector<ColumnMapping> columns = m_columns;
      chooseUnit(columns, i, unit);
      take(std::move(columns));
    });
    m_heads.push_back(head);
    widgets.push_back(head);
  }
  m_head->setWidgets(widgets);
  orderFocus();
}

/// From the table through the heads, column by column, before what comes below.
void PreviewView::orderFocus() {
  QWidget* last = this;
  for (ColumnHead* head : m_heads) {
    for (QComboBox* chooser : head->findChildren<QComboBox*>()) {
      setTabOrder(last, chooser);
      chooser->installEventFilter(this);
      last = chooser;
    }
  }
}

/// A head that gets the focus comes into sight.
bool PreviewView::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::FocusIn) {
    for (std::size_t i = 0; i < m_heads.size(); ++i) {
      if (watched->parent() == m_heads[i]) scrollTo(m_preview->index(std::max(0, rowAt(0)), static_cast<int>(i)));
    }
  }
  return QTableView::eventFilter(watched, event);
}

/// The heads follow at once; what is understood under them once it is worked out.
void PreviewView::take(std::vector<ColumnMapping> columns) {
  m_columns = std::move(columns);
  for (std::size_t i = 0; i < m_heads.size(); ++i) m_heads[i]->setColumn(m_columns[i]);
  emit columnsChosen(m_columns);
}

}  // namespace bw
