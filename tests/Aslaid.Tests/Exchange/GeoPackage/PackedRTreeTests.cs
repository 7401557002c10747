using Aslaid.Exchange;
using Microsoft.Data.Sqlite;
using static Aslaid.Tests.GeoPackageSample;

namespace Aslaid.Tests;

public sealed class PackedRTreeTests
{
    private static CurveVertex[] Points(int count, int seed)
    {
        var random = new Random(seed); // a fixed seed: only sizes matter here
        return [.. Enumerable.Range(0, count).Select(_ => Vertex(random.NextDouble() * 400, random.NextDouble() * 300))];
    }

    private static SqliteConnection MemoryTree(int pageSize)
    {
        var connection = new SqliteConnection("Data Source=:memory:");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = $"PRAGMA page_size={pageSize}; CREATE VIRTUAL TABLE tree USING rtree(id, minx, maxx, miny, maxy)";
        command.ExecuteNonQuery();
        return connection;
    }

    private static string Check(SqliteConnection connection)
    {
        using var read = new BulkRead(connection, "SELECT rtreecheck('tree')");
        read.Next();
        return read.Text(0);
    }

    private static List<long> Ids(SqliteConnection connection, string where)
    {
        using var read = new BulkRead(connection, $"SELECT id FROM tree WHERE {where} ORDER BY id");
        List<long> ids = [];
        while (read.Next()) ids.Add(read.Whole(0));
        return ids;
    }

    // 51 boxes fill a node of the usual page, 51 × 51 = 2601 a tree of two levels.
    [Theory]
    [InlineData(4096, 0)]
    [InlineData(4096, 1)]
    [InlineData(4096, 51)]
    [InlineData(4096, 52)]
    [InlineData(4096, 2601)]
    [InlineData(4096, 2602)]
    [InlineData(4096, 133_000)]
    [InlineData(512, 5000)]
    [InlineData(65536, 5000)]
    public void Write_AnySizeOfTree_PassesTheCheckOfSqlite(int pageSize, int count)
    {
        using var connection = MemoryTree(pageSize);
        var tree = new PackedRTree();
        var points = Points(count, seed: 7);
        for (var i = 0; i < count; i++) tree.Add(i + 1, CurveBox.Of(points.AsSpan(i, 1)));
        tree.Write(connection, "tree");
        Assert.Equal("ok", Check(connection));
        Assert.Equal(count, Ids(connection, "1").Count);
    }

    [Fact]
    public void Write_AnyBoxes_FindsWhatASearchOfAllFinds() => Gen.Select(CurveGen.Any.Array[1, 200], CurveGen.Any).Sample(x =>
    {
        using var connection = MemoryTree(4096);
        var boxes = x.Item1.Select(v => CurveBox.Of(v.AsSpan(0, 2))).ToArray();
        var window = CurveBox.Of(x.Item2.AsSpan(0, 2));
        var tree = new PackedRTree();
        for (var i = 0; i < boxes.Length; i++) tree.Add(1000 - i, boxes[i]); // keys need not ascend
        tree.Write(connection, "tree");
        var found = Ids(connection, FormattableString.Invariant(
            $"maxx >= {window.MinEast:R} AND minx <= {window.MaxEast:R} AND maxy >= {window.MinNorth:R} AND miny <= {window.MaxNorth:R}"));

        const double outward = 0.5; // m: the step of single precision at 6 243 000 m
        bool Meets(CurveBox b, double by) => b.MaxEast >= window.MinEast - by && b.MinEast <= window.MaxEast + by && b.MaxNorth >= window.MinNorth - by && b.MinNorth <= window.MaxNorth + by;
        return Check(connection) == "ok"
            && Enumerable.Range(0, boxes.Length).All(i => found.Contains(1000 - i) ? Meets(boxes[i], outward) : !Meets(boxes[i], 0));
    }, iter: 100);

    [Fact]
    public void Write_AfterEditsThroughSqlite_AndEditsAfterIt_StayWhole()
    {
        using var connection = MemoryTree(4096);
        for (var round = 0; round < 3; round++)
        {
            var tree = new PackedRTree();
            var points = Points(3000 - 1400 * round, seed: round);
            for (var i = 0; i < points.Length; i++) tree.Add(i + 1, CurveBox.Of(points.AsSpan(i, 1)));
            tree.Write(connection, "tree");
            Assert.Equal("ok", Check(connection));
            using var command = connection.CreateCommand();
            command.CommandText = """
                DELETE FROM tree WHERE id % 3 = 0;
                INSERT INTO tree SELECT id + 10000, minx, maxx, miny, maxy FROM tree;
                UPDATE tree SET maxx = maxx + 5 WHERE id % 7 = 0;
                """;
            command.ExecuteNonQuery();
            Assert.Equal("ok", Check(connection));
            Assert.Equal(2 * (points.Length - points.Length / 3), Ids(connection, "1").Count);
        }
    }

    [Fact]
    public void Write_OneKeyTwice_IsRefused()
    {
        using var connection = MemoryTree(4096);
        var tree = new PackedRTree();
        var box = CurveBox.Of(Points(1, 1));
        tree.Add(5, box);
        tree.Add(5, box);
        Assert.Contains("5", Assert.Throws<ArgumentException>(() => tree.Write(connection, "tree")).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Write_ShuffledPoints_PutsNeighboursIntoOneNode()
    {
        using var connection = MemoryTree(4096);
        var tree = new PackedRTree();
        var points = Points(20_000, seed: 3);
        for (var i = 0; i < points.Length; i++) tree.Add(i + 1, CurveBox.Of(points.AsSpan(i, 1)));
        tree.Write(connection, "tree");

        // A window of 1/20 by 1/20 holds about 50 points, one node's worth; unsorted, they would lie in about 46 of the 393 nodes.
        using var read = new BulkRead(connection, "SELECT count(*), count(DISTINCT nodeno) FROM tree JOIN tree_rowid ON rowid = id WHERE minx > 512100 AND maxx < 512120 AND miny > 6243100 AND maxy < 6243115");
        Assert.True(read.Next());
        Assert.InRange(read.Whole(0), 20, 90);
        Assert.InRange(read.Whole(1), 1, 9);
    }
}
