using System.Globalization;
using System.Reflection;
using System.Runtime.CompilerServices;

namespace Aslaid.Tests;

public sealed class TextTests
{
    [Fact]
    public void ToString_OfEveryPublicRecord_IsWrittenByHand()
    {
        // The generated one follows the culture.
        var generated = typeof(Arc).Assembly.GetExportedTypes()
            .Where(t => t.GetMethod("PrintMembers", BindingFlags.Instance | BindingFlags.NonPublic) is not null)
            .Where(t => t.GetMethod("ToString", Type.EmptyTypes)!.IsDefined(typeof(CompilerGeneratedAttribute)));
        Assert.Empty(generated);
    }

    [Fact]
    public void ToString_UnderADecimalComma_WritesPoints()
    {
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Assert.Equal("0,5", 0.5.ToString(CultureInfo.CurrentCulture)); // the culture is there
            var place = new Point2(512_000.25, 6_243_000.5);
            Assert.Equal("(512000.2500, 6243000.5000)", place.ToString());
            Assert.Equal("1.5000 m along, -0.2500 m right, foot (512000.2500, 6243000.5000)", new Locus(1.5, -0.25, 0.25, place).ToString());
            Assert.Equal("through (512000.2500, 6243000.5000) 4.5000", new PathVertex(place, 4.5, true).ToString());
            Assert.Equal("22.500000°", Bearing.FromDegrees(22.5).ToString());
            Assert.Contains("at flatness 0.5 m", Assert.Throws<ArgumentException>(() => Arc.Through(place, place, place, 0.5)).Message, StringComparison.Ordinal);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
