using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Lines;

internal static class VehicleLines
{
    /// <param name="all">How many there are without a filter; what is shown where nothing is given.</param>
    public static IReadOnlyList<Line> Of(IReadOnlyList<Vehicle> vehicles, int width, Signs signs, int? all = null)
    {
        if (vehicles.Count == 0) return all > 0 ? [Line.Of($"  None of the {all} vehicles fits.", Role.Faint)] : Nothing(width);
        const int yearWidth = 7, stateWidth = 20;
        var nameWidth = Math.Clamp(vehicles.Max(vehicle => Cells.Width(Clean.Of(vehicle.Name, signs))), 12, width - yearWidth - stateWidth - 18);
        var systemWidth = width - 2 - nameWidth - yearWidth - stateWidth - 3;
        string Row(string name, string year, string system, string state) =>
            $"  {Cells.Fit(name, nameWidth, signs)} {Cells.Fit(year, yearWidth, signs)} {Cells.Fit(system, systemWidth, signs)} {Cells.Fit(state, stateWidth, signs)}";
        Line Of(Vehicle vehicle, int row) => Line.Of(Row(Clean.Of(vehicle.Name, signs), Clean.Of(vehicle.Year, signs), Clean.Of(vehicle.System, signs), State(vehicle)), row: row);
        return new Listing([Line.Of(Row("Vehicle", "Year", "System", "State"), Role.Title)], vehicles.Count, row => Of(vehicles[row], row));
    }

    public static string State(Vehicle vehicle) => vehicle.Archived ? "archived" : vehicle.OpenComplaints switch
    {
        0 => "no open complaint",
        1 => "1 open complaint",
        var open => $"{open} open complaints",
    };

    private static List<Line> Nothing(int width) =>
    [
        Line.Blank,
        .. Cells.Wrap($"No vehicle is recorded yet. Press {Keys.Add.Shown} to add the first one: a name, its year and its fuel system are enough.", width - 4).Select(text => Line.Of("  " + text)),
        Line.Blank,
        .. Cells.Wrap($"Then enter what was done to it and what is wrong with it. Press {Keys.Help.Shown} on any screen to see its keys.", width - 4).Select(text => Line.Of("  " + text)),
    ];
}
