using System.Numerics;
using Aslaid.Geometry;

namespace Aslaid.Record;

/// <summary>Places not yet visited, from which the nearest is taken again and again.</summary>
/// <remarks>A balanced tree: each branch halves its places by count across their wider extent, so that one place far off spoils
/// nothing; each place taken shrinks the boxes above it, so that a search never enters where all is done. Making it and taking all
/// takes n log n in practice.</remarks>
internal sealed class NearestLeft
{
    private const int Root = 1;

    private readonly Point2[] places;
    private readonly Branch[] branches; // children of b are 2b and 2b + 1; the second half are the places
    private readonly int[] branchOf; // by place

    /// <summary>What is left below a branch: its box, and the first of its places; none is above all numbers.</summary>
    private readonly record struct Branch(Box2 Box, int First)
    {
        public static readonly Branch Empty = new(Box2.Empty, int.MaxValue);

        public Branch With(Branch other) => new(Box.Union(other.Box), Math.Min(First, other.First));
    }

    public NearestLeft(ReadOnlySpan<Point2> places)
    {
        this.places = places.ToArray();
        var leaves = (int)BitOperations.RoundUpToPowerOf2((uint)Math.Max(1, places.Length));
        branches = new Branch[2 * leaves];
        branches.AsSpan().Fill(Branch.Empty);
        branchOf = new int[places.Length];
        var order = new int[places.Length];
        for (var i = 0; i < order.Length; i++) order[i] = i;
        Divide(order, leaves);
        for (var i = 0; i < order.Length; i++)
        {
            branchOf[order[i]] = leaves + i;
            branches[leaves + i] = new(Box2.Of(places[order[i]], places[order[i]]), order[i]);
        }

        for (var branch = leaves - 1; branch >= Root; branch--) branches[branch] = branches[2 * branch].With(branches[2 * branch + 1]);
    }

    /// <summary>Takes the place nearest to here, of equals the first; −1 where none is left.</summary>
    public int Take(Point2 here)
    {
        var (best, least) = (int.MaxValue, double.PositiveInfinity);
        Search(Root, here, branches[Root].Box.DistanceTo(here), ref best, ref least);
        if (best == int.MaxValue) return -1;
        var branch = branchOf[best];
        branches[branch] = Branch.Empty;
        while ((branch /= 2) >= Root) branches[branch] = branches[2 * branch].With(branches[2 * branch + 1]);
        return best;
    }

    /// <param name="toBranch">Metres, from here to what is left of the branch.</param>
    private void Search(int branch, Point2 here, double toBranch, ref int best, ref double least)
    {
        var first = branches[branch].First;
        if (toBranch > least || (toBranch == least && first >= best)) return; // many may lie in one place: the first of them ends the search
        if (2 * branch >= branches.Length)
        {
            (best, least) = (first, toBranch);
            return;
        }

        var (near, far) = (2 * branch, 2 * branch + 1);
        var (toNear, toFar) = (branches[near].Box.DistanceTo(here), branches[far].Box.DistanceTo(here));
        if (toFar < toNear || (toFar == toNear && branches[far].First < branches[near].First))
            (near, far, toNear, toFar) = (far, near, toFar, toNear);
        Search(near, here, toNear, ref best, ref least);
        Search(far, here, toFar, ref best, ref least);
    }

    /// <summary>Orders so that of every branch the first half is nearer to one side than the second.</summary>
    private void Divide(Span<int> order, int leaves)
    {
        while (leaves > 1)
        {
            leaves /= 2;
            if (order.Length <= leaves) continue; // all in the first half
            var box = Box2.Empty;
            foreach (var place in order) box = box.Union(Box2.Of(places[place], places[place]));
            Select(order, leaves, byEast: box.MaxEast - box.MinEast >= box.MaxNorth - box.MinNorth);
            Divide(order[leaves..], leaves);
            order = order[..leaves];
        }
    }

    /// <summary>Puts the lowest <paramref name="count"/> first, in any order (Hoare 1961, Find).</summary>
    private void Select(Span<int> order, int count, bool byEast)
    {
        var (low, high) = (0, order.Length - 1);
        while (low < high)
        {
            var middle = Key(order[low + (high - low) / 2]);
            var (i, j) = (low, high);
            while (i <= j)
            {
                while (Key(order[i]) < middle) i++;
                while (Key(order[j]) > middle) j--;
                if (i > j) break;
                (order[i], order[j]) = (order[j], order[i]);
                i++;
                j--;
            }

            if (count <= j) high = j;
            else if (count >= i) low = i;
            else return;
        }

        double Key(int place) => byEast ? places[place].East : places[place].North;
    }
}
