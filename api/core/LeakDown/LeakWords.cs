using System.Globalization;

namespace FuelHistory.Core.LeakDown;

/// <summary>Verdict and shape in a technician's words.</summary>
internal static class LeakWords
{
    public const string Holds = "holds", Seep = "steady-seep", Hole = "hole", RunsEmpty = "store-runs-empty", Lost = "store-lost", Slip = "slip";

    public static string Shape(string id) => id switch
    {
        Holds => "holds: no more is lost than a sound section loses",
        Seep => "a steady seep: the same share is lost every minute",
        Hole => "a hole: it falls ever slower and then is gone",
        RunsEmpty => "holds, then collapses: the store ran empty",
        Lost => "drops at once, then stays: the store is lost",
        _ => "fits none of these: a slip of hand or hook-up",
    };

    public static (string Id, string Words) Law(LeakLaw law) => law switch
    {
        LeakLaw.Seep => ("seep", "a seep"),
        LeakLaw.Orifice => ("orifice", "a hole"),
        LeakLaw.Collapse => ("collapse", "a store that runs empty"),
        _ => ("settle", "a lost store"),
    };

    public static string Cost(LeakVerdict verdict, double wrong)
    {
        string chance = Chance(wrong);
        return verdict switch
        {
            LeakVerdict.StopFails => $"{chance} that it would have held after all: then a tight section is taken for a leaking one, and the search turns to parts that are good.",
            LeakVerdict.StopHolds => $"{chance} that it would still have fallen below: then a leak is passed over, and the search turns away from the part that is bad.",
            _ => $"{chance} to be wrong by going with the likelier outcome now: either a good part is suspected or a leak is passed over. Watch on.",
        };
    }

    private static string Chance(double p) => p < 0.0005
        ? "Less than 1 chance in 1000"
        : p < 0.02 ? string.Create(CultureInfo.InvariantCulture, $"{Math.Round(p * 1000, MidpointRounding.AwayFromZero):0} chances in 1000")
        : string.Create(CultureInfo.InvariantCulture, $"{Math.Round(p * 100, MidpointRounding.AwayFromZero):0} chances in 100");
}
