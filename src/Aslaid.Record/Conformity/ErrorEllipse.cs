namespace Aslaid.Record;

/// <summary>How a place in plan is uncertain when its axes differ or are correlated; standard deviations in one unit.</summary>
/// <param name="East">Standard deviation in east.</param>
/// <param name="North">Standard deviation in north.</param>
/// <param name="Correlation">Of east and north, from −1 to 1.</param>
public readonly record struct ErrorEllipse(double East, double North, double Correlation)
{
    /// <summary>Longer and shorter semi-axis of the standard ellipse: roots of the eigenvalues of the covariance matrix.</summary>
    public (double Long, double Short) SemiAxes
    {
        get
        {
            var mean = (East * East + North * North) / 2;
            var half = double.Hypot((East * East - North * North) / 2, Correlation * East * North);
            return (Math.Sqrt(mean + half), Math.Sqrt(Math.Max(0, mean - half)));
        }
    }

    /// <summary>
    /// Radius of the circle within which lies 95 %: a (1.960790 + 0.004071 C + 0.114276 C² + 0.371625 C³), C the shorter by the
    /// longer semi-axis a (geodetic accuracy reporting after FGDC-STD-007.2-1998). It is 0.12 % large for a circle, 0.04 % for a line.
    /// </summary>
    public double Circle95
    {
        get
        {
            var (a, b) = SemiAxes;
            var c = a > 0 ? b / a : 0;
            return a * (1.960790 + c * (0.004071 + c * (0.114276 + c * 0.371625)));
        }
    }
}
