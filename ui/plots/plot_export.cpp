// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/plots/plot_export.h"

#include "ui/style/theme.h"

#include <QPdfWriter>
#include <QSaveFile>
#include <QSvgGenerator>
#include <cmath>
#include <qcustomplot.h>

namespace bw {

namespace {

constexpr int captionHeight = 52;

void paintWhole(QCPPainter& painter, QCustomPlot& plot, const Caption& caption) {
  const QRectF head(space::large, space::small, plot.width() - 2 * space::large, captionHeight - space::small);
  painter.fillRect(QRect(0, 0, plot.width(), plot.height() + captionHeight), Qt::white);
  QFont font = plot.font();
  font.setBold(true);
  font.setPixelSize(space::headFont);
  painter.setFont(font);
  painter.setPen(QColor("#1b2023"));
  painter.drawText(head, Qt::AlignLeft | Qt::AlignTop, caption.title);
  font.setBold(false);
  font.setPixelSize(space::leastFont);
  painter.setFont(font);
  painter.drawText(head.adjusted(0, 22, 0, 0), Qt::AlignLeft | Qt::AlignTop, caption.statement);
  painter.translate(0, captionHeight);
  plot.toPainter(&painter, plot.width(), plot.height());
}

/// Vector devices: nothing may be drawn through the screen's buffers.
bool paintVector(QPaintDevice& device, QCustomPlot& plot, const Caption& caption) {
  QCPPainter painter;
  if (!painter.begin(&device)) return false;
  painter.setMode(QCPPainter::pmVectorized);
  painter.setMode(QCPPainter::pmNoCaching);
  painter.setRenderHint(QPainter::LosslessImageRendering);  // a map as JPEG would show blocks
  paintWhole(painter, plot, caption);
  return painter.end();
}

bool writePng(QCustomPlot& plot, const Caption& caption, const QString& file) {
  constexpr int scale = 2;
  QImage image(QSize(plot.width(), plot.height() + captionHeight) * scale, QImage::Format_ARGB32_Premultiplied);
  image.setDevicePixelRatio(scale);
  QCPPainter painter;
  if (!painter.begin(&image)) return false;
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setMode(QCPPainter::pmNoCaching);
  paintWhole(painter, plot, caption);
  painter.end();
  QSaveFile out(file);
  return out.open(QIODevice::WriteOnly) && image.save(&out, "PNG") && out.commit();
}

bool writeSvg(QCustomPlot& plot, const Caption& caption, const QString& file) {
  QSaveFile out(file);
  if (!out.open(QIODevice::WriteOnly)) return false;
  QSvgGenerator generator;
  generator.setOutputDevice(&out);
  generator.setSize(QSize(plot.width(), plot.height() + captionHeight));
  generator.setViewBox(QRect(0, 0, plot.width(), plot.height() + captionHeight));
  generator.setResolution(plot.logicalDpiX());  // its own default makes text too small for its boxes
  generator.setTitle(caption.title);
  return paintVector(generator, plot, caption) && out.commit();
}

bool writePdf(QCustomPlot& plot, const Caption& caption, const QString& file) {
  QSaveFile out(file);
  if (!out.open(QIODevice::WriteOnly)) return false;
  QPdfWriter writer(&out);
  const double pointsPerPixel = 72.0 / plot.logicalDpiX();
  writer.setResolution(plot.logicalDpiX());  // one unit is one pixel: fonts keep their proportion
  writer.setPageSize(QPageSize(QSizeF(plot.width(), plot.height() + captionHeight) * pointsPerPixel, QPageSize::Point));
  writer.setPageMargins(QMarginsF());
  writer.setTitle(caption.title);
  return paintVector(writer, plot, caption) && out.commit();
}

}  // namespace

QString csvText(const PlotTable& table) {
  QString text = table.header.join(QLatin1Char(',')) + QLatin1Char('\n');
  for (const std::vector<double>& row : table.rows) {
    QStringList fields;
    for (const double value : row) fields << (std::isfinite(value) ? QString::number(value, 'g', 6) : QString());
    text += fields.join(QLatin1Char(',')) + QLatin1Char('\n');
  }
  return text;
}

bool exportPlot(QCustomPlot& plot, const Caption& caption, const QString& file) {
  const QString suffix = QFileInfo(file).suffix().toLower();
  if (suffix == QLatin1String("png")) return writePng(plot, caption, file);
  if (suffix == QLatin1String("svg")) return writeSvg(plot, caption, file);
  return suffix == QLatin1String("pdf") && writePdf(plot, caption, file);
}

bool writeText(const QString& file, const QString& text) {
  QSaveFile out(file);
  const QByteArray bytes = text.toUtf8();
  return out.open(QIODevice::WriteOnly) && out.write(bytes) == bytes.size() && out.commit();
}

}  // namespace bw
