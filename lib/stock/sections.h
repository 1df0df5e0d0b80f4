/*
 * Section values shape by shape; sizes are known to be right. For the files of stock/ alone.
 */
#ifndef TRIVET_STOCK_SECTIONS_H
#define TRIVET_STOCK_SECTIONS_H

#include "stock/outline.h"
#include "trivet/stock.h"

/* Poisson's ratio in shear areas and for nothing else: steel, and near enough for aluminium. */
#define TRIVET__SHEAR_POISSON 0.3

/* Outer and inner corner radius of a square or rectangular tube, m. */
void trivet__corner_radii(const trivet_profile *profile, double *outer_out, double *inner_out);

/* Refuses sizes that are missing, not wanted, out of range, or do not fit together. */
trivet_status trivet__profile_check(const trivet_profile *profile, trivet_message *message);

/* Hollow rectangle with outer and inner corner radius, m. */
void trivet__hollow_rectangle(double height, double width, double wall, double outer_radius,
                              double inner_radius, trivet_section *section);

void trivet__solid_rectangle(double height, double width, trivet_section *section);

/* Round bar (inner 0) or tube, by diameters, m. */
void trivet__round_section(double outer, double inner, trivet_section *section);

void trivet__angle_section(const trivet_profile *profile, trivet_section *section);
void trivet__channel_section(const trivet_profile *profile, trivet_section *section);

/* Area, moments, moduli, perimeter, box and centroid from an outline drawn about its box's middle.
 */
void trivet__section_from_outline(const trivet__outline *outline, trivet_section *section);

/* Adds a stress point; per_Vy, per_Vz and per_T as in trivet_stress_point. */
void trivet__add_stress_point(trivet_section *section, trivet_stress_point point);

#endif
