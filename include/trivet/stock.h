/**
 * @file
 * Stock: what you buy. Profiles and their section values, materials, gauges, the fit of inserts,
 * screw threads and grades.
 */
#ifndef TRIVET_STOCK_H
#define TRIVET_STOCK_H

#include "trivet/base.h"

#ifdef __cplusplus
extern "C" {
#endif

/** The shapes of stock. Numbers never change. */
typedef enum trivet_shape {
    TRIVET_SHAPE_SQUARE_TUBE = 1,
    TRIVET_SHAPE_RECTANGULAR_TUBE = 2,
    TRIVET_SHAPE_ROUND_TUBE = 3,
    TRIVET_SHAPE_SQUARE_BAR = 4,
    TRIVET_SHAPE_FLAT_BAR = 5,
    TRIVET_SHAPE_ROUND_BAR = 6,
    TRIVET_SHAPE_ANGLE = 7,
    TRIVET_SHAPE_CHANNEL = 8,
    TRIVET_SHAPE_GIVEN_VALUES = 9
} trivet_shape;

/** How the outer corner of a square or rectangular tube is rounded. */
typedef enum trivet_corner {
    TRIVET_CORNER_STANDARD =
        0,                    /**< by wall, as EN 10219-2 annex B lays down for cold-formed tube */
    TRIVET_CORNER_RADIUS = 1, /**< as trivet_profile.corner_radius says */
    TRIVET_CORNER_SHARP = 2   /**< no rounding inside or outside */
} trivet_corner;

/**
 * A profile by its sizes. Fill with trivet_profile_defaults, then set shape and the sizes that
 * the shape needs; sizes that it does not need must stay 0. All in m (m^2, m^3, m^4, kg/m).
 *
 * | shape             | needs                                   | may have               |
 * | square tube       | width, wall                             | corner, corner_radius  |
 * | rectangular tube  | height, width, wall                     | corner, corner_radius  |
 * | round tube        | diameter, wall                          |                        |
 * | square bar        | width                                   |                        |
 * | flat bar          | height, width                           |                        |
 * | round bar         | diameter                                |                        |
 * | angle             | height (leg along z), width (leg along y), wall | root_radius, toe_radius |
 * | channel           | height, width, wall (web), flange       | root_radius            |
 * | given values      | area, second moments, torsion constant  | the rest of the given_ |
 *
 * Height lies along the section's z, width along y. An angle's heel is at -y -z, a channel's web
 * at -y.
 */
typedef struct trivet_profile {
    size_t size;
    int32_t shape;        /**< a trivet_shape */
    int32_t corner;       /**< a trivet_corner */
    double height;        /**< m */
    double width;         /**< m */
    double wall;          /**< m */
    double diameter;      /**< m, outside */
    double corner_radius; /**< m, outside */
    double flange;        /**< m, thickness of a channel's flange */
    double root_radius;   /**< m, fillet inside the angle between leg and leg or web and flange */
    double toe_radius;    /**< m, rounding of an angle's toes */
    double given_area;    /**< m^2 */
    double given_shear_area[2];      /**< m^2, y and z; 0: no shear give */
    double given_second_moment[2];   /**< m^4, Iyy and Izz */
    double given_torsion_constant;   /**< m^4 */
    double given_section_modulus[2]; /**< m^3, y and z; 0: not known, yield cannot be checked */
    double given_torsion_modulus;    /**< m^3; 0: not known */
    double given_mass_per_length;    /**< kg/m; 0: area times density */
} trivet_profile;

/** A place in the section where stress is looked at. */
typedef struct trivet_stress_point {
    double y;      /**< m from the centroid */
    double z;      /**< m from the centroid */
    double per_Vy; /**< 1/m^2: shear stress along the wall = per_Vy Vy + per_Vz Vz + per_T T */
    double per_Vz; /**< 1/m^2 */
    double per_T;  /**< 1/m^3 */
} trivet_stress_point;

enum { TRIVET_STRESS_POINTS_MAX = 24 };

/**
 * Section values. y along the width, z along the height, from the centroid.
 * Iyy is the integral of z^2 (bending by My), Izz of y^2, Iyz of y z.
 * Normal stress: N/A + My z/Iyy - Mz y/Izz for sections with Iyz = 0.
 */
typedef struct trivet_section {
    size_t size;
    double area;                /**< m^2 */
    double shear_area[2];       /**< m^2, for Vy and Vz; infinite if given values leave it out */
    double second_moment[2];    /**< m^4, Iyy and Izz */
    double product_moment;      /**< m^4, Iyz */
    double principal_moment[2]; /**< m^4, larger and smaller */
    double principal_angle;     /**< rad, from y to the axis of the larger one, about +x; in
                                     (-pi/2, pi/2]; 0 or pi/2 for sections with an axis of symmetry */
    double elastic_modulus[2];  /**< m^3, about y and z, to the farthest fibre; NaN if not known */
    double plastic_modulus[2];  /**< m^3, about y and z; NaN if not known */
    double torsion_constant;    /**< m^4 */
    double torsion_modulus;     /**< m^3; NaN if not known */
    double radius_of_gyration[2]; /**< m, about y and z */
    double perimeter;             /**< m, outer outline; NaN if not known */
    double height;                /**< m, over all; NaN if not known */
    double width;                 /**< m, over all; NaN if not known */
    double centroid[2];     /**< m, y and z of the centroid from the middle of width and height */
    double mass_per_length; /**< kg/m if the profile gives it, else 0: area times density */
    double outer_radius;    /**< m, for round tube and bar, else 0 */
    double inner_radius;    /**< m, for round tube, else 0 */
    int32_t is_open;        /**< 1 for angle and channel: torsion stress acts in both senses */
    int32_t point_count;    /**< 0 for round sections (any point of the rim) and if not known */
    trivet_stress_point points[TRIVET_STRESS_POINTS_MAX];
} trivet_section;

/** Fills a profile with zeros and its size. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE. */
TRIVET_API trivet_status trivet_profile_defaults(trivet_profile *profile, size_t size);

/** Fills a section with zeros and its size. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE. */
TRIVET_API trivet_status trivet_section_defaults(trivet_section *section, size_t size);

/**
 * Section values of a profile.
 *
 * @param profile     sizes in m, see trivet_profile
 * @param section_out a section made ready by trivet_section_defaults; zeros but for size on failure
 * @param message     may be NULL; thing is the plain name of the shape, such as "square tube"
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SIZE, TRIVET_BAD_VALUE (a size is missing,
 *         not finite, not above 0, not wanted by the shape, or the wall does not fit)
 *
 * Formulas: hollow sections EN 10219-2 annex B, shear areas after Cowper (1966) with nu = 0.3 and
 * by the shear-flow integral for hollow rectangles, torsion of bars after Saint-Venant's series,
 * of open sections the sum of b t^3/3. An open section's twist by loads beside its shear centre
 * and its warping stiffness are left out.
 */
TRIVET_API trivet_status trivet_section_solve(const trivet_profile *profile,
                                              trivet_section *section_out, trivet_message *message);

/**
 * How far the corners of a square or rectangular tube are rounded: as EN 10219-2 annex B lays down,
 * or as the profile says; 0 for sharp ones.
 *
 * @param outer_out m; 0 on failure; may be NULL
 * @param inner_out m, one wall less, at least 0; likewise
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SIZE, TRIVET_BAD_VALUE (another shape)
 */
TRIVET_API trivet_status trivet_profile_radii(const trivet_profile *profile, double *outer_out,
                                              double *inner_out);

/** The plain name of a shape as the file writes it, such as "square tube". Static. */
TRIVET_API const char *trivet_shape_text(int32_t shape);

/**
 * A profile as people say it: "square tube 20 x 20 x 2 mm", in the units given.
 *
 * @return bytes needed without the closing zero; text is cut at a character to fit size
 */
TRIVET_API size_t trivet_profile_text(const trivet_profile *profile, const trivet_units *units,
                                      char *text, size_t size);

/** A material. Strengths are what the standard promises at least, unless source says typical. */
typedef struct trivet_material {
    size_t size;
    char name[64];
    double E;              /**< Pa */
    double G;              /**< Pa */
    double density;        /**< kg/m^3 */
    double yield;          /**< Pa */
    double tensile;        /**< Pa; NaN if not known */
    double expansion;      /**< 1/K */
    double welded_yield;   /**< Pa, beside a weld; equal to yield where welding does not soften */
    double welded_tensile; /**< Pa, beside a weld; NaN if not known */
    char source[192];
} trivet_material;

/**
 * Fills a material with its size, an empty name, NaN for tensile strengths and 0 for the rest.
 * A welded yield left at 0 is taken as equal to yield by whoever uses the material.
 */
TRIVET_API trivet_status trivet_material_defaults(trivet_material *material, size_t size);

/** The number of built-in materials. */
TRIVET_API int32_t trivet_material_count(void);

/** Material number index. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_INDEX. */
TRIVET_API trivet_status trivet_material_at(int32_t index, trivet_material *material_out);

/**
 * A built-in material by its name, capitals and blanks ignored ("E235", "6061-T6").
 *
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SIZE, TRIVET_BAD_NAME (the remedy offers
 *         the nearest name)
 */
TRIVET_API trivet_status trivet_material_find(const char *name, trivet_material *material_out,
                                              trivet_message *message);

/** The two systems of gauge numbers. A number alone means nothing. */
typedef enum trivet_gauge_system {
    TRIVET_BWG = 1, /**< Birmingham wire gauge: walls of tube */
    TRIVET_MSG = 2  /**< manufacturers' standard gauge: uncoated steel sheet */
} trivet_gauge_system;

/** The smallest and largest gauge number in the tables. */
TRIVET_API void trivet_gauge_range(int32_t *first_out, int32_t *last_out);

/**
 * The thickness of a gauge.
 *
 * @param thickness_out m
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_VALUE (not in the table)
 */
TRIVET_API trivet_status trivet_gauge_thickness(int32_t system, int32_t number,
                                                double *thickness_out, trivet_message *message);

/**
 * Reads a quantity like trivet_quantity_read, in which gauges may stand: "16 ga BWG", "14 ga MSG".
 * A gauge without its system is an error that explains the difference.
 */
TRIVET_API trivet_status trivet_stock_quantity_read(const char *text, trivet_quantity *quantity_out,
                                                    trivet_message *message);

/** Does this bar or tube slide into that tube? Gaps are inside size minus outside size. */
typedef struct trivet_fit {
    size_t size;
    double gap_height; /**< m, over the whole height; negative: too big by so much */
    double gap_width;  /**< m */
    double gap_corner; /**< m, smallest gap at the rounded inner corners, measured along the
                            diagonal; NaN where one of them is round */
    double seam;       /**< m, taken off for the weld seam inside the tube */
    double take_off; /**< m, what must come off the outside size of the inner one; 0 if it slides */
    int32_t slides;  /**< 1 if every gap is at least 0 after the seam */
} trivet_fit;

/** Fills a fit with zeros and its size. */
TRIVET_API trivet_status trivet_fit_defaults(trivet_fit *fit, size_t size);

/**
 * Whether inner slides into outer.
 *
 * @param outer square, rectangular or round tube
 * @param inner square or round bar or tube, flat bar, rectangular tube
 * @param seam  m, height of the weld seam inside outer, at least 0 (0 for drawn or flash-removed)
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SIZE, TRIVET_BAD_VALUE
 */
TRIVET_API trivet_status trivet_fit_solve(const trivet_profile *outer, const trivet_profile *inner,
                                          double seam, trivet_fit *fit_out,
                                          trivet_message *message);

/**
 * A fit in words: "slides in with 0.5 mm to spare", "does not slide in: 0.24 mm must come off".
 *
 * @param units NULL for the defaults
 * @return bytes needed without the closing zero; text is cut at a character to fit size
 */
TRIVET_API size_t trivet_fit_text(const trivet_fit *fit, const trivet_units *units, char *text,
                                  size_t size);

/**
 * A screw thread by its sizes, m. Metric: ISO 68-1, 261, 724, tolerance limits 6g and 6H of ISO
 * 965; inch: ASME B1.1, classes 2A and 2B.
 */
typedef struct trivet_thread {
    size_t size;
    char name[24];            /**< "M6", "M8x1", "1/4-20 UNC" */
    int32_t is_inch;          /**< 1 for UNC and UNF */
    double diameter;          /**< nominal, d */
    double pitch;             /**< P */
    double pitch_diameter;    /**< basic, d2 */
    double minor_diameter;    /**< basic, of the hole, D1 */
    double root_diameter;     /**< of the screw, as the stress area is made from */
    double stress_area;       /**< m^2, As */
    double screw_major_least; /**< smallest outside diameter of the screw */
    double screw_pitch_least; /**< smallest pitch diameter of the screw */
    double hole_minor_most;   /**< largest minor diameter of the hole */
    double hole_pitch_most;   /**< largest pitch diameter of the hole */
    double tapping_drill;     /**< usual drill before tapping */
    double clearance_hole;    /**< ISO 273 medium; inch: common practice, normal fit */
    double hexagon_width;     /**< across the flats of a hexagon head */
    double socket_head;       /**< diameter of a cylinder head with a hexagon socket */
    double countersunk_head;  /**< theoretical diameter of a countersunk head, ISO 10642; inch: of
                                   a flat head with a hexagon socket, ASME B18.3 */
    double countersunk_angle; /**< rad, whole angle of the cone: 90 deg; inch 82 deg */
} trivet_thread;

/** Fills a thread with zeros and its size. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE. */
TRIVET_API trivet_status trivet_thread_defaults(trivet_thread *thread, size_t size);
/** The number of built-in threads. */
TRIVET_API int32_t trivet_thread_count(void);
/** Thread number index. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_INDEX. */
TRIVET_API trivet_status trivet_thread_at(int32_t index, trivet_thread *thread_out);
/**
 * A built-in thread by its name, capitals and blanks ignored: "M6" (coarse; "M6x1" is the same),
 * "M8x1", "1/4-20 UNC" ("1/4-20", "1/4 UNC" are the same).
 *
 * @return TRIVET_OK, TRIVET_MISSING_ARGUMENT, TRIVET_BAD_SIZE, TRIVET_BAD_NAME (the remedy offers
 *         the nearest name)
 */
TRIVET_API trivet_status trivet_thread_find(const char *name, trivet_thread *thread_out,
                                            trivet_message *message);

/** What a screw's grade promises. Pa. */
typedef struct trivet_grade {
    size_t size;
    char name[16];         /**< "8.8", "A2-70", "grade 5" */
    double proof;          /**< stress at which it keeps no bend: proof strength; A2, A4: that of
                                0.2 % strain */
    double yield;          /**< least */
    double tensile;        /**< least */
    double tensile_design; /**< f_ub for EN 1993-1-8: nominal for metric classes (10.9: 1000 MPa) */
    double shear_factor;   /**< alpha_v of EN 1993-1-8 table 3.4 with the thread in shear: 0.6 or
                                0.5 */
    char source[96];
} trivet_grade;

/** Fills a grade with zeros and its size. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE. */
TRIVET_API trivet_status trivet_grade_defaults(trivet_grade *grade, size_t size);
/** The number of built-in grades. */
TRIVET_API int32_t trivet_grade_count(void);
/** Grade number index. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_INDEX. */
TRIVET_API trivet_status trivet_grade_at(int32_t index, trivet_grade *grade_out);
/** A built-in grade by its name: "8.8", "A2-70", "grade 5". As trivet_thread_find. */
TRIVET_API trivet_status trivet_grade_find(const char *name, trivet_grade *grade_out,
                                           trivet_message *message);

/** Weld metal. Pa. */
typedef struct trivet_filler {
    size_t size;
    char name[24];  /**< "E70", "ER70S-6", "ER308L", "G42" */
    double yield;   /**< least; NaN if not known */
    double tensile; /**< least */
    char source[96];
} trivet_filler;

/** Fills a filler with zeros and its size. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE. */
TRIVET_API trivet_status trivet_filler_defaults(trivet_filler *filler, size_t size);
/** The number of built-in fillers. */
TRIVET_API int32_t trivet_filler_count(void);
/** Filler number index. Statuses: OK, MISSING_ARGUMENT, BAD_SIZE, BAD_INDEX. */
TRIVET_API trivet_status trivet_filler_at(int32_t index, trivet_filler *filler_out);
/** A built-in filler by its name. As trivet_thread_find. */
TRIVET_API trivet_status trivet_filler_find(const char *name, trivet_filler *filler_out,
                                            trivet_message *message);

#ifdef __cplusplus
}
#endif

#endif
