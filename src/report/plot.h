#ifndef BW_REPORT_PLOT_H
#define BW_REPORT_PLOT_H

/* What the charts of a wall have in common. */

#include "bothways/assessment.h"
#include "figure.h"

enum { BW_PLOT_FACES = 64, BW_PLOT_POINTS = 512 };

/* The month, 0..11, with the coldest or warmest air outside. */
int bw_coldest_month(const bw_section_assessment *section);
int bw_warmest_month(const bw_section_assessment *section);

/* The design run has something to draw. */
bool bw_has_planes(const bw_section_assessment *section);

/* A plot box 38 from the left over a year that begins with month `first`; x
 * runs over 0..12. */
void bw_year_box(bw_chart *chart, double top, double right, double bottom,
                 int first);

/* The range of y, with `most` ticks and their rules. */
void bw_upright_axis(bw_chart *chart, double low, double high, size_t most,
                     const char *unit);

/* Numbers of layers above the box, led to their places in rising order;
 * count <= BW_PLOT_FACES. */
void bw_number_layers(bw_page *page, bw_chart *chart, const double *place,
                      const size_t *number, size_t count);

/* The layers of a section as tall as the box, whose x runs over metres from the
 * outer face, numbered; and the list of their names. */
void bw_layers_drawn(bw_page *page, bw_chart *chart,
                     const bw_assembly *assembly, const bw_section *section);
void bw_layer_key(bw_page *page, const bw_assembly *assembly);

/* Where on the axis of bw_year_box a share of a year (0..1) lies that begins
 * with month `first`: months are not equally long. */
double bw_year_place(int first, double share);

/* Water forms or stands. */
bool bw_is_wet(const bw_plane_month *month);

/* A limit across the box, named on its right; nothing where it lies beyond. */
void bw_limit_line(bw_chart *chart, double value, const char *name);

/* A circle at a place on the paper. */
void bw_disc(bw_chart *chart, const char *class_name, double x, double y,
             double radius);

/* A name that fits its line; the table below has it in full. */
const char *bw_fitted(bw_page *page, const char *text, size_t columns);

/* Across the box at a value of y. */
void bw_level_line(bw_chart *chart, const char *class_name, double value);

/* Water is in g/m2 up to some kilograms, then in kg/m2: factor and unit. */
double bw_water_factor(double most, const char **unit);

/* What the strokes of `count` ways a wetting dries stand for, above the plot.
 */
extern const char *const bw_way_class[3], *const bw_way_name[3];
void bw_ways_legend(bw_chart *chart, size_t count);

/* Millimetres below a plot whose x is in metres of depth. */
void bw_depth_axis(bw_chart *chart);

#endif
