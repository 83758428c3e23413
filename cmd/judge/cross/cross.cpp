// Tells whether the surfaces of solids cross or touch themselves, by CGAL with exact
// predicates.
//
//	cross FILE.stl...
//
// prints a line for each that does, with two triangles that meet; exit code 1 if any.
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>
#include <CGAL/Polygon_mesh_processing/orient_polygon_soup.h>
#include <CGAL/Polygon_mesh_processing/polygon_soup_to_polygon_mesh.h>
#include <CGAL/Polygon_mesh_processing/self_intersections.h>
#include <CGAL/Polygon_mesh_processing/repair_polygon_soup.h>
#include <CGAL/Surface_mesh.h>
#include <CGAL/IO/STL.h>
#include <iostream>
#include <vector>
typedef CGAL::Exact_predicates_inexact_constructions_kernel K;
typedef CGAL::Surface_mesh<K::Point_3> Mesh;
namespace PMP = CGAL::Polygon_mesh_processing;

int main(int n, char **files) {
  int bad = 0;
  auto fail = [&](const char *file) -> std::ostream & {
    bad++;
    return std::cout << "cross: FAILED: " << file << ": ";
  };
  for (int i = 1; i < n; i++) {
    std::vector<K::Point_3> points;
    std::vector<std::vector<std::size_t>> triangles;
    if (!CGAL::IO::read_STL(files[i], points, triangles) || triangles.empty()) {
      fail(files[i]) << "can't be read\n";
      continue;
    }
    PMP::merge_duplicate_points_in_polygon_soup(points, triangles);
    if (!PMP::is_polygon_soup_a_polygon_mesh(triangles)) {
      fail(files[i]) << "is no surface\n";
      continue;
    }
    Mesh m;
    PMP::polygon_soup_to_polygon_mesh(points, triangles, m);
    std::vector<std::pair<Mesh::Face_index, Mesh::Face_index>> pairs;
    PMP::self_intersections(m, std::back_inserter(pairs));
    if (pairs.empty()) continue;
    fail(files[i]) << pairs.size() << " pairs of " << m.number_of_faces() << " triangles meet:";
    for (auto f : {pairs[0].first, pairs[0].second}) {
      std::cout << (f == pairs[0].first ? "" : " and");
      for (auto v : m.vertices_around_face(m.halfedge(f))) std::cout << " (" << m.point(v) << ")";
    }
    std::cout << "\n";
  }
  std::cout << "solids (CGAL): " << n - 1 << " surfaces, " << bad << " that cross themselves\n";
  return bad ? 1 : 0;
}
