"""Volume of the wash solution and the fill of its tank."""

from builder.reference.ranges import require_all, require_choice

RECIPE_MEANINGS = ("circulating", "tank")  # definition of this project


def recipe_volume_L(elements_n: float, recipe_water_L: float) -> float:
    """Return the water that the recipe asks for.

    N times the water for each element.

    Parameters
    ----------
    elements_n : float
        Elements in the machine [n], 1 to 100000.
    recipe_water_L : float
        Water that the recipe asks for each element [L], 0 to 1e+06.

    Returns
    -------
    float
        Volume [L].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(elements_n=elements_n, recipe_water_L=recipe_water_L)
    return elements_n * recipe_water_L


def wash_solution_L(
    recipe_volume_L: float, recipe_water_means: str, holdup_adopted_L: float
) -> float:
    """Return the wash solution that the recipe means.

    circulating: the recipe volume; tank: the recipe volume + the hold-up.

    Parameters
    ----------
    recipe_volume_L : float
        Water that the recipe asks for all elements [L], 0 to 1e+09.
    recipe_water_means : str
        What the recipe's water means [choice], "circulating" or "tank".
    holdup_adopted_L : float
        Hold-up that everything downstream uses [L], 0 to 1e+09.

    Returns
    -------
    float
        Volume [L].

    Raises
    ------
    ValueError
        A value lies outside its range or is no allowed choice.

    References
    ----------
    Definition of this project.
    """
    require_choice("recipe_water_means", recipe_water_means, RECIPE_MEANINGS)
    require_all(recipe_volume_L=recipe_volume_L, holdup_adopted_L=holdup_adopted_L)
    in_tank = recipe_water_means == "tank"
    return recipe_volume_L + (holdup_adopted_L if in_tank else 0.0)


def wash_volume_L(wash_solution_L: float, holdup_adopted_L: float) -> float:
    """Return the solution that really circulates.

    The wash solution, never less than the machine itself holds.

    Parameters
    ----------
    wash_solution_L : float
        Wash solution that the recipe means [L], 0 to 1e+09.
    holdup_adopted_L : float
        Hold-up that everything downstream uses [L], 0 to 1e+09.

    Returns
    -------
    float
        Volume [L].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(wash_solution_L=wash_solution_L, holdup_adopted_L=holdup_adopted_L)
    return float(max(wash_solution_L, holdup_adopted_L))


def tank_fill_L(wash_solution_L: float, holdup_adopted_L: float) -> float:
    """Return what to put into the tank when the machine is full of water.

    Wash solution less hold-up, never below 0.

    Parameters
    ----------
    wash_solution_L : float
        Wash solution that the recipe means [L], 0 to 1e+09.
    holdup_adopted_L : float
        Hold-up that everything downstream uses [L], 0 to 1e+09.

    Returns
    -------
    float
        Volume [L].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Definition of this project.
    """
    require_all(wash_solution_L=wash_solution_L, holdup_adopted_L=holdup_adopted_L)
    return float(max(wash_solution_L, holdup_adopted_L) - holdup_adopted_L)


def tank_short_L(tank_fill_L: float, wash_tank_L: float) -> float:
    """Return what does not fit into the wash tank.

    Tank fill less capacity, never below 0.

    Parameters
    ----------
    tank_fill_L : float
        Water to put into the tank [L], 0 to 1e+09.
    wash_tank_L : float
        Capacity of the wash tank [L], 0 to 1e+09.

    Returns
    -------
    float
        Volume [L].

    Raises
    ------
    ValueError
        A value lies outside its range.

    References
    ----------
    Common practice, no source.
    """
    require_all(tank_fill_L=tank_fill_L, wash_tank_L=wash_tank_L)
    return float(max(tank_fill_L, wash_tank_L) - wash_tank_L)
