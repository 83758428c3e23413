// Judges overlays of line/arc regions with exact arithmetic: CGAL's boolean
// operations on polygons of line segments and circular arcs (package "2D Regularized
// Boolean Set-Operations", traits Gps_circle_segment_traits_2).
//
// Reads cases from a file (see judge_test.go for the form), takes and, or, not
// and xor of each with exact constructions, and compares areas. Exits 1 on any
// disagreement over 1e-6 of the areas of both operands together, and on any case
// that could not be judged.
#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/General_polygon_set_2.h>
#include <CGAL/Gps_circle_segment_traits_2.h>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <iterator>
#include <map>
#include <string>
#include <utility>
#include <variant>
#include <vector>

typedef CGAL::Exact_predicates_exact_constructions_kernel Kernel;
typedef Kernel::FT FT;
typedef Kernel::Point_2 KPoint;
typedef CGAL::Gps_circle_segment_traits_2<Kernel> Traits;
typedef CGAL::General_polygon_set_2<Traits> Set;
typedef Traits::General_polygon_2 Polygon;
typedef Traits::General_polygon_with_holes_2 WithHoles;
typedef Traits::Curve_2 Curve;
typedef Traits::X_monotone_curve_2 XCurve;
typedef Traits::Point_2 TPoint;

struct Vertex { double x, y, b; };
typedef std::vector<Vertex> Loop;
typedef std::vector<Loop> Region;

static double number(std::istream& in) {
  std::string s;
  in >> s;
  return std::strtod(s.c_str(), nullptr); // hexadecimal: exact
}

static Region region(std::istream& in) {
  std::string word;
  size_t n;
  in >> word >> n;
  Region r(n);
  for (Loop& l : r) {
    size_t k;
    in >> word >> k;
    l.resize(k);
    for (Vertex& v : l) { v.x = number(in); v.y = number(in); v.b = number(in); }
  }
  return r;
}

static Polygon polygon(const Loop& l) {
  Traits traits;
  Polygon p;
  for (size_t i = 0; i < l.size(); i++) {
    const Vertex &v = l[i], &w = l[(i + 1) % l.size()];
    KPoint a(v.x, v.y), b(w.x, w.y);
    if (v.b == 0) {
      p.push_back(XCurve(a, b));
      continue;
    }
    // Exact: the centre is on the bisector of the chord, a rational times its length.
    FT t(v.b), k = (1 - t * t) / (4 * t);
    KPoint c((a.x() + b.x()) / 2 - (b.y() - a.y()) * k, (a.y() + b.y()) / 2 + (b.x() - a.x()) * k);
    FT r2 = CGAL::squared_distance(a, c);
    Kernel::Circle_2 circle(c, r2, v.b > 0 ? CGAL::COUNTERCLOCKWISE : CGAL::CLOCKWISE);
    Curve curve(circle, TPoint(a.x(), a.y()), TPoint(b.x(), b.y()));
    std::vector<CGAL::Object> parts;
    traits.make_x_monotone_2_object()(curve, std::back_inserter(parts));
    for (auto& o : parts) {
      XCurve x;
      if (!CGAL::assign(x, o)) throw std::string("not a curve");
      p.push_back(x);
    }
  }
  return p;
}

static double area(const Polygon& p) {
  double s = 0;
  for (auto c = p.curves_begin(); c != p.curves_end(); ++c) {
    double ax = CGAL::to_double(c->source().x()), ay = CGAL::to_double(c->source().y());
    double bx = CGAL::to_double(c->target().x()), by = CGAL::to_double(c->target().y());
    s += (ax * by - ay * bx) / 2;
    if (c->is_linear()) continue;
    const auto& circle = c->supporting_circle();
    double cx = CGAL::to_double(circle.center().x()), cy = CGAL::to_double(circle.center().y());
    double r2 = CGAL::to_double(circle.squared_radius());
    double ux = ax - cx, uy = ay - cy, vx = bx - cx, vy = by - cy;
    // An x-monotone arc is at most half a turn.
    double turn = std::atan2(ux * vy - uy * vx, ux * vx + uy * vy);
    double chord = std::hypot(bx - ax, by - ay), r = std::sqrt(r2);
    if (r > 1e3 * chord) {
      double h = chord / (2 * r), m = r2 * (4 * h * h * h / 3); // s - sin s for a small sweep s
      s += (c->orientation() == CGAL::COUNTERCLOCKWISE ? m : -m) / 2;
      continue;
    }
    if (c->orientation() == CGAL::COUNTERCLOCKWISE && turn < 0) turn += 2 * M_PI;
    if (c->orientation() == CGAL::CLOCKWISE && turn > 0) turn -= 2 * M_PI;
    s += r2 / 2 * (turn - std::sin(turn));
  }
  return s;
}

static double area(const Set& s) {
  double a = 0;
  std::vector<WithHoles> ps;
  s.polygons_with_holes(std::back_inserter(ps));
  for (const WithHoles& p : ps) {
    // Signed, as the loops run: an island that comes back among the holes counts
    // as what it is.
    double one = area(p.outer_boundary());
    for (auto h = p.holes_begin(); h != p.holes_end(); ++h) one += area(*h);
    a += std::fabs(one);
  }
  return a;
}

// Loops nest, so inside is what an odd number of them holds.
static Set set(const Region& r) {
  Set s;
  for (const Loop& l : r) {
    Polygon p = polygon(l);
    if (p.orientation() == CGAL::CLOCKWISE) p.reverse_orientation();
    s.symmetric_difference(p);
  }
  return s;
}

typedef std::vector<std::pair<std::string, Region>> Steps;

static Steps steps(std::istream& in) {
  std::string word;
  size_t n;
  in >> word >> n;
  Steps s(n);
  for (auto& x : s) {
    in >> x.first;
    x.second = region(in);
  }
  return s;
}

static Set set(const Steps& steps) {
  Set s;
  for (const auto& x : steps) {
    Set t = set(x.second);
    if (x.first == "and") s.intersection(t);
    else if (x.first == "or") s.join(t);
    else if (x.first == "not") s.difference(t);
    else s.symmetric_difference(t);
  }
  return s;
}

int main(int argc, char** argv) {
  if (argc != 2) { std::cerr << "usage: overlay CASES\n"; return 2; }
  std::ifstream in(argv[1]);
  std::string word, name;
  int n = 0, wrong = 0, unjudged = 0;
  std::map<std::string, int> kinds;
  double worst = 0;
  while (in >> word && word == "case") {
    in >> name;
    kinds[name.substr(0, name.rfind('-'))]++;
    Steps a = steps(in);
    Region b = region(in);
    in >> word;
    double got[4];
    bool failed = word != "areas";
    if (failed) std::getline(in, word);
    else for (double& g : got) g = number(in);
    n++;
    if (failed) {
      std::cout << name << ": no result:" << word << "\n";
      wrong++;
      continue;
    }
    try {
      Set sa = set(a), sb = set(b);
      double want[4];
      Set s = sa; s.intersection(sb); want[0] = area(s);
      s = sa; s.join(sb); want[1] = area(s);
      s = sa; s.difference(sb); want[2] = area(s);
      s = sa; s.symmetric_difference(sb); want[3] = area(s);
      double whole = area(sa) + area(sb);
      const char* ops[4] = {"and", "or", "not", "xor"};
      for (int k = 0; k < 4; k++) {
        double off = std::fabs(got[k] - want[k]) / whole;
        worst = std::max(worst, off);
        if (!(off <= 1e-6)) {
          std::printf("%s %s: %.12g, exact %.12g, off by %.3g of the whole\n", name.c_str(), ops[k], got[k], want[k], off);
          wrong++;
        }
      }
    } catch (const std::exception& e) {
      std::cout << name << ": not judged: " << e.what() << "\n";
      unjudged++;
    } catch (const std::string& e) {
      std::cout << name << ": not judged: " << e << "\n";
      unjudged++;
    }
  }
  std::printf("exact overlays (CGAL): %d pairs, %d disagreements, %d not judged, worst %.3g of the areas\n", n, wrong, unjudged, worst);
  const char* sep = "of these";
  for (auto& k : kinds) {
    std::printf("%s %s %d", sep, k.first.c_str(), k.second);
    sep = ",";
  }
  std::printf("\n");
  return n == 0 || wrong > 0 || unjudged > 0;
}
